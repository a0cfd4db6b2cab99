//! Every sentence made from a plan. One exhaustive match for each kind of fact, so that a new one has words or does not
//! compile. Fixed captions of the page are not here.

use crate::ids::{ElementId, FieldId, LevelId};
use crate::loads::{Combination, Kind, Mark, Site, SnowEdition, Soil, Surface, Thing, soil_usual};
use crate::plan::{
    BoardKind, Cut, Element, Grade, Level, Over, Plan, PostKind, Roof, RoofForm, RoofFrame, Side, Use, Wall,
};
use crate::tape::{self, Tape};
use crate::trace::{Node, Origin, Role};
use crate::units::{Feet, Plf, Pounds, Psf, SquareFeet, Ticks};

mod cuts;
pub(crate) mod joined;
mod looks;
pub(crate) mod posts;
mod says;
mod seen;
mod shoring;
pub(crate) mod strength;
mod survey;
pub mod take_out;
pub(crate) mod work;

pub use looks::share;
pub use seen::{way, weight};

/// The words for one plan on one tape.
#[derive(Clone, Copy, Debug)]
pub struct Words<'a> {
    plan: &'a Plan,
    tape: Tape,
}

/// A role as a phrase: "carries the floor".
#[must_use]
pub const fn role(role: Role) -> &'static str {
    match role {
        Role::CarriesRoof => "carries roof",
        Role::CarriesFloor => "carries floor",
        Role::CarriesCeiling => "carries ceiling",
        Role::HoldsPoint => "holds a beam or a post",
        Role::Outside => "outside wall: counts as bearing",
        Role::NothingFound => "nothing found that lands on it",
        Role::NeedsALook => "needs a look: counts as bearing",
    }
}

/// How a fact is known, as a word.
#[must_use]
pub const fn grade(grade: Grade) -> &'static str {
    match grade {
        Grade::Measured => "measured",
        Grade::Seen => "seen",
        Grade::Told => "told",
        Grade::Assumed => "assumed",
        Grade::Unknown => "unknown",
    }
}

/// What lands, as a noun.
#[must_use]
pub const fn origin(origin: Origin) -> &'static str {
    match origin {
        Origin::Roof => "roof",
        Origin::Floor => "floor",
        Origin::Ceiling => "ceiling",
    }
}

/// What a value that was recalled and not read says of itself, to go behind its source.
#[must_use]
pub const fn from_memory(mark: Mark) -> &'static str {
    if matches!(mark, Mark::Memory) { ", from memory" } else { "" }
}

/// A kind of load as a word.
#[must_use]
pub const fn kind(kind: Kind) -> &'static str {
    match kind {
        Kind::Dead => "dead",
        Kind::Floor => "floor live",
        Kind::Attic => "attic live",
        Kind::RoofLive => "roof live",
        Kind::Snow => "snow",
    }
}

/// A combination as it is written with the snow of an edition.
#[must_use]
pub const fn combination(combination: Combination, edition: SnowEdition) -> &'static str {
    match (combination, edition) {
        (Combination::Dead, _) => "D",
        (Combination::DeadLive, _) => "D + L",
        (Combination::DeadRoofLive, _) => "D + Lr",
        (Combination::DeadSnow, SnowEdition::From2022) => "D + 0.7 S",
        (Combination::DeadSnow, _) => "D + S",
        (Combination::DeadLiveRoofLive, _) => "D + 0.75 L + 0.75 Lr",
        (Combination::DeadLiveSnow, SnowEdition::From2022) => "D + 0.75 L + 0.75 (0.7 S)",
        (Combination::DeadLiveSnow, _) => "D + 0.75 L + 0.75 S",
    }
}

/// How ground snow became the snow on a roof of this rise in a run of 1.
#[must_use]
pub fn snow(site: &Site, rise_per_run: f64) -> String {
    let stated = site.exposure.or(site.thermal).or(site.importance).is_some();
    let flat = if stated {
        let [exposure, thermal, importance] = site.snow_factors();
        format!("0.7 pg with Ce = {exposure}, Ct = {thermal}, Is = {importance}")
    } else {
        "0.7 pg with Ce = Ct = Is = 1".to_owned()
    };
    let surface = match site.roof_surface {
        Surface::NotStated => return format!("{flat}, no reduction for slope (ASCE 7, 7.3)"),
        Surface::Rough => "not slippery",
        Surface::Slippery => "slippery, nothing in the way",
    };
    format!("{flat}, times Cs = {:.2} for the slope, {surface} (ASCE 7, 7.3 and 7.4)", site.slope_factor(rise_per_run))
}

/// A class of soil as the table names it.
#[must_use]
pub const fn soil(soil: Soil) -> &'static str {
    match soil {
        Soil::Bedrock => "crystalline bedrock",
        Soil::FoliatedRock => "sedimentary or foliated rock",
        Soil::Gravel => "sandy gravel or gravel",
        Soil::Sand => "sand, silty or clayey sand, silty or clayey gravel",
        Soil::Clay => "clay, sandy or silty clay, clayey silt, silt",
        Soil::Organic => "mud, peat, organic silt or clay, or loose fill",
    }
}

/// Where the bearing of the soil comes from.
#[must_use]
pub fn soil_from(site: &Site) -> String {
    if site.soil.is_some() {
        return "typed for this house".to_owned();
    }
    let usual = soil_usual();
    match site.soil_class.map(|class| (soil(class), class.presumptive())) {
        None => usual.source.to_owned(),
        Some((name, Some(bears))) => format!("{name}; {}{}", bears.source, from_memory(bears.mark)),
        Some((name, None)) => {
            format!("{name}: the table has no figure for it, a test has to say; meanwhile as for clay")
        }
    }
}

/// A use of a deck as a phrase.
#[must_use]
pub const fn used_as(used_as: Use) -> &'static str {
    match used_as {
        Use::Living => "rooms",
        Use::Sleeping => "sleeping rooms",
        Use::AtticRoom => "attic rooms",
        Use::AtticStorage => "attic with storage",
        Use::AtticBare => "attic without storage",
        Use::Deck => "deck",
        Use::Garage => "garage",
    }
}

/// A whole number with its thousands apart: "6,840".
#[must_use]
pub fn thousands(number: f64) -> String {
    let digits = format!("{:.0}", number.abs());
    let mut text = String::with_capacity(digits.len() + 2);
    for (i, digit) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    if number <= -0.5 { format!("-{text}") } else { text }
}

/// "6,840 lb".
#[must_use]
pub fn pounds(pounds: Pounds) -> String {
    format!("{} lb", thousands(pounds.0))
}

/// "240 plf".
#[must_use]
pub fn plf(plf: Plf) -> String {
    format!("{} plf", thousands(plf.0))
}

/// "1,440 psf".
#[must_use]
pub fn psf(psf: Psf) -> String {
    format!("{} psf", thousands(psf.0))
}

/// "156 sq ft".
#[must_use]
pub fn square_feet(area: SquareFeet) -> String {
    format!("{} sq ft", thousands(area.0))
}

fn post_word(kind: PostKind) -> &'static str {
    match kind {
        PostKind::Wood => "post",
        PostKind::Steel => "steel column",
        PostKind::StudPack => "stud pack",
        PostKind::Pier => "pier",
    }
}

impl<'a> Words<'a> {
    /// The words for a plan, lengths printed for a tape.
    #[must_use]
    pub const fn new(plan: &'a Plan, tape: Tape) -> Self {
        Self { plan, tape }
    }

    /// A derived length to the sixteenth or the millimetre.
    #[must_use]
    pub fn length(&self, length: Feet) -> String {
        tape::print(Ticks::from_decimal_feet(length).unwrap_or_default(), self.tape)
    }

    /// A small length: inches, or millimetres on a metric tape.
    #[must_use]
    pub fn short(&self, length: Ticks) -> String {
        match self.tape {
            Tape::Feet => format!("{} in", tape::in_fraction(length)),
            Tape::Metric => format!("{:.0} mm", length.inches() * 25.4),
        }
    }

    /// The name of a level.
    #[must_use]
    pub fn level(&self, id: LevelId) -> String {
        self.plan.level(id).map_or_else(|| format!("level {}", id.number()), |level| level.name.clone())
    }

    /// What a part is called: its own name, or what it is and its number.
    #[must_use]
    pub fn name(&self, part: ElementId) -> String {
        let number = part.number();
        match self.plan.element(part) {
            Some(Element::Wall(wall)) if !wall.name.is_empty() => wall.name,
            Some(Element::Wall(wall)) if wall.side == Side::Outside => self.outside(&wall),
            Some(Element::Wall(_)) => format!("Inside wall {number}"),
            Some(Element::Opening(it)) => format!("{:?} {number}", it.kind),
            Some(Element::Post(it)) => {
                let bare = || capital(&format!("{} {number}", post_word(it.kind)));
                let name = if it.name.is_empty() { bare() } else { it.name };
                if it.member.is_seen() { format!("{name} {}", it.member) } else { name }
            }
            Some(Element::Beam(it)) => {
                let name = if it.name.is_empty() { format!("Beam {number}") } else { it.name };
                if it.member.is_seen() { format!("{name} {}", it.member) } else { name }
            }
            Some(Element::Footing(it)) => match it.shape {
                crate::plan::FootingShape::Pad { side, .. } => {
                    format!("Pad {} x {}", tape::in_fraction(side), self.short(side))
                }
                crate::plan::FootingShape::Strip { width, .. } => format!("Strip footing {}", self.short(width)),
            },
            Some(Element::Field(it)) => {
                let what = if it.used_as.is_ceiling() { "Ceiling joists" } else { "Floor joists" };
                let size = if it.member.is_seen() { format!(" {}", it.member) } else { String::new() };
                format!("{what}{size} at {}", self.short(it.spacing))
            }
            Some(Element::FloorOpening(_)) => format!("Deck opening {number}"),
            Some(Element::Roof(it)) => roof_name(&it).to_owned(),
            Some(Element::Purlin(it)) if it.member.is_seen() => format!("Purlin {}", it.member),
            Some(Element::Thing(it)) if !it.name.is_empty() => it.name,
            Some(Element::Thing(it)) => thing(it.kind).to_owned(),
            Some(Element::Purlin(_)) => format!("Purlin {number}"),
            Some(Element::Observation(it)) => self.saw(&it.saw),
            Some(Element::JoistCut(it)) => format!("{} {number}", cut_word(&it.cut)),
            Some(Element::Board(it)) => format!("{} {number}", board(it.kind)),
            None => format!("part {number}"),
        }
    }

    /// "South outside wall": by the side of the house, with its number where two share it.
    fn outside(&self, wall: &Wall) -> String {
        let level = self.plan.level_of(ElementId::Wall(wall.id));
        let outside = || level.into_iter().flat_map(|it| &it.walls).filter(|it| it.side == Side::Outside);
        let Some(side) = level.and_then(|level| side_of(level, wall)) else {
            return format!("Outside wall {}", wall.id.number());
        };
        let same = outside().filter(|it| level.and_then(|level| side_of(level, it)) == Some(side)).count();
        if same > 1 { format!("{side} outside wall {}", wall.id.number()) } else { format!("{side} outside wall") }
    }

    /// What a place on the path is called.
    #[must_use]
    pub fn node(&self, node: Node) -> String {
        match node {
            Node::Roof(id) => self.name(ElementId::Roof(id)),
            Node::Field(id) => self.name(ElementId::Field(id)),
            Node::FloorOpening(id) => format!("Trimmer of {}", self.name(ElementId::FloorOpening(id)).to_lowercase()),
            Node::Wall(id) => self.name(ElementId::Wall(id)),
            Node::Beam(id) => self.name(ElementId::Beam(id)),
            Node::Post(id) => self.name(ElementId::Post(id)),
            Node::Purlin(id) => self.name(ElementId::Purlin(id)),
            Node::Thing(id) => self.name(ElementId::Thing(id)),
            Node::Footing(id) => self.name(ElementId::Footing(id)),
            Node::Ground => "Ground, no footing drawn".to_owned(),
            Node::Here => "What is put down here".to_owned(),
            Node::Gap => "Path gap".to_owned(),
        }
    }

    fn field(&self, id: FieldId) -> String {
        let name = self.name(ElementId::Field(id));
        let mut letters = name.chars();
        letters.next().map(|first| first.to_lowercase().chain(letters).collect()).unwrap_or_default()
    }
}

/// What a heavy thing is called.
#[must_use]
pub const fn thing(thing: Thing) -> &'static str {
    match thing {
        Thing::Tub => "Bathtub",
        Thing::CastIronTub => "Cast-iron bathtub",
        Thing::HotTub => "Hot tub",
        Thing::Waterbed => "Waterbed",
        Thing::Aquarium => "Aquarium",
        Thing::UprightPiano => "Upright piano",
        Thing::GrandPiano => "Grand piano",
        Thing::Refrigerator => "Refrigerator",
        Thing::KitchenIsland => "Kitchen island",
        Thing::Safe => "Safe",
        Thing::Bookcase => "Bookcases",
        Thing::StoredBoxes => "Stored boxes",
        Thing::Tank => "Tank",
        Thing::MasonryStove => "Masonry stove",
        Thing::Chimney => "Chimney",
        Thing::StoneFloor => "Stone floor",
    }
}

/// What a cut in a joist is called.
#[must_use]
pub const fn cut_word(cut: &Cut) -> &'static str {
    match cut {
        Cut::Notch { .. } => "Notch",
        Cut::Hole { .. } => "Hole",
    }
}

/// What a board is called.
#[must_use]
pub const fn board(kind: BoardKind) -> &'static str {
    match kind {
        BoardKind::Rim => "Rim board",
        BoardKind::Blocking => "Blocking",
        BoardKind::Ledger => "Ledger",
    }
}

/// What stands over an opening in a roof.
#[must_use]
pub const fn over_roof(over: Over) -> &'static str {
    match over {
        Over::Glass => "skylight",
        Over::GableDormer => "gable dormer",
        Over::ShedDormer => "shed dormer",
    }
}

/// What a roof is called by its form.
#[must_use]
pub const fn roof_name(roof: &Roof) -> &'static str {
    match (roof.frame, roof.form) {
        (RoofFrame::OverFramed, _) => "Roof over roof",
        (_, RoofForm::Gable) => "Gable roof",
        (_, RoofForm::Shed) => "Shed roof",
        (_, RoofForm::Hip) => "Hip roof",
        (_, RoofForm::Gambrel { .. }) => "Gambrel roof",
    }
}

/// The side of the house an outside wall faces, if it is square to the compass.
fn side_of(level: &Level, wall: &Wall) -> Option<&'static str> {
    let outside = level.walls.iter().filter(|it| it.side == Side::Outside);
    let ends: Vec<(i32, i32)> = outside.flat_map(|it| [it.a, it.b]).map(|at| (at.x.get(), at.y.get())).collect();
    let middle = |of: fn(&(i32, i32)) -> i32| {
        let lo = ends.iter().map(of).min()?;
        let hi = ends.iter().map(of).max()?;
        Some(lo / 2 + hi / 2)
    };
    let (x, y) = (middle(|end| end.0)?, middle(|end| end.1)?);
    if wall.a.y == wall.b.y {
        Some(if wall.a.y.get() < y { "South" } else { "North" })
    } else if wall.a.x == wall.b.x {
        Some(if wall.a.x.get() < x { "West" } else { "East" })
    } else {
        None
    }
}

/// With a capital letter in front.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thousands_stand_apart() {
        assert_eq!(
            [0.0, 999.4, 1000.0, 6840.0, 1_234_567.0, -1234.0].map(thousands),
            ["0", "999", "1,000", "6,840", "1,234,567", "-1,234"]
        );
    }
}
