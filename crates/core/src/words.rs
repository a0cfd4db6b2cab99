//! Every sentence made from a plan. One exhaustive match for each kind of fact, so that a new one has words or does not
//! compile. Fixed captions of the page are not here.

use crate::ids::{ElementId, FieldId, LevelId};
use crate::loads::{Combination, Kind};
use crate::plan::{Element, Grade, Level, Plan, PostKind, Side, Use, Wall};
use crate::tape::{self, Tape};
use crate::trace::{Caution, Finding, Node, Origin, Problem, Reason, Role};
use crate::units::{Feet, Plf, Pounds, Psf, SquareFeet, Ticks};

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

/// A combination as it is written.
#[must_use]
pub const fn combination(combination: Combination) -> &'static str {
    match combination {
        Combination::DeadLive => "D + L",
        Combination::DeadRoof => "D + (Lr or S)",
        Combination::DeadLiveRoof => "D + 0.75 L + 0.75 (Lr or S)",
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
            Some(Element::Post(it)) if !it.name.is_empty() => it.name,
            Some(Element::Post(it)) => capital(&format!("{} {number}", post_word(it.kind))),
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
            Some(Element::Roof(_)) => "Roof".to_owned(),
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
            Node::Footing(id) => self.name(ElementId::Footing(id)),
            Node::Ground => "Ground, no footing drawn".to_owned(),
            Node::Gap => "Path gap".to_owned(),
        }
    }

    fn field(&self, id: FieldId) -> String {
        let name = self.name(ElementId::Field(id));
        let mut letters = name.chars();
        letters.next().map(|first| first.to_lowercase().chain(letters).collect()).unwrap_or_default()
    }

    /// A reason as a sentence.
    #[must_use]
    pub fn reason(&self, reason: &Reason) -> String {
        let name = |part| self.name(part);
        match *reason {
            Reason::OutsideWall => "It is an outside wall: it counts as bearing, and as bracing.".to_owned(),
            Reason::JoistsLapOver { field } => capital(&format!("{} lap over it.", self.field(field))),
            Reason::JoistsEndOn { field } => capital(&format!("{} end on it.", self.field(field))),
            Reason::JoistsPassOver { field } => {
                capital(&format!("{} run through over it and bear on it.", self.field(field)))
            }
            Reason::JoistsCross { field } => {
                capital(&format!("{} cross it; nobody looked whether they lap.", self.field(field)))
            }
            Reason::RoofStandsOn { roof } => format!("The feet of the {} stand on it.", self.roof_members(roof)),
            Reason::WallStandsOn { upper, offset } if offset.0 < 0.01 => {
                format!("{} stands on it, in line.", name(ElementId::Wall(upper)))
            }
            Reason::WallStandsOn { upper, offset } => {
                format!("{} stands on it, {} off its line.", name(ElementId::Wall(upper)), self.length(offset))
            }
            Reason::WallNearStandsOn { upper, offset } => format!(
                "{} stands on the joists {} away: this wall gets a share of it.",
                name(ElementId::Wall(upper)),
                self.length(offset)
            ),
            Reason::BeamLiesOn { beam } => format!("{} lies along its top.", name(ElementId::Beam(beam))),
            Reason::BeamRestsOn { beam, at } => {
                format!("{} rests on it at {}.", name(ElementId::Beam(beam)), self.length(at))
            }
            Reason::PostStandsOn { post, at } => {
                format!("{} above stands on it at {}.", name(ElementId::Post(post)), self.length(at))
            }
            Reason::TrimmerRestsOn { opening, at } => format!(
                "A trimmer of {} rests on it at {}.",
                name(ElementId::FloorOpening(opening)).to_lowercase(),
                self.length(at)
            ),
            Reason::JoistsRunAlong { field } => capital(&format!("{} run along it.", self.field(field))),
            Reason::TrussesPassOver { .. } => {
                "Trusses with metal plates pass over it: they are made to bear at their ends.".to_owned()
            }
            Reason::RoofGoesToEaves { .. } => {
                "The rafters are tied and meet at a ridge board: the roof goes to the eave walls.".to_owned()
            }
            Reason::GapSeen => "A gap was seen between it and what is over it, along its whole length.".to_owned(),
            Reason::NothingStatedOverhead => "Nobody has said yet what is overhead.".to_owned(),
            Reason::DirectionNotSeen { field, known } => {
                capital(&format!("the way {} run is only {}.", self.field(field), grade(known)))
            }
            Reason::RoofFrameNotSeen { .. } => "Nobody has seen how the roof is framed.".to_owned(),
            Reason::TrussesSiteBuilt { .. } => {
                "The trusses are site built: nobody can say where they were meant to bear.".to_owned()
            }
            Reason::TrussWebCut { .. } => "A truss web is cut: the trusses may lean on what is under them.".to_owned(),
            Reason::TrussesBearInside { .. } => {
                "A tag or drawing says that the trusses bear inside the house too.".to_owned()
            }
            Reason::TrussesNotLookedAt { .. } => "Nobody has looked at the plates of the trusses.".to_owned(),
            Reason::InsideMasonry => "It is a masonry wall inside the house: those are treated as bearing.".to_owned(),
            Reason::JoistsEndNear { field } => {
                capital(&format!("{} cross here, and none was found to land on it.", self.field(field)))
            }
        }
    }

    fn roof_members(&self, roof: crate::ids::RoofId) -> &'static str {
        match self.plan.element(ElementId::Roof(roof)) {
            Some(Element::Roof(it)) if matches!(it.frame, crate::plan::RoofFrame::Trusses { .. }) => "trusses",
            _ => "rafters",
        }
    }

    /// How the fact behind a reason is known; empty if it is simply drawn.
    #[must_use]
    pub fn known(&self, reason: &Reason) -> &'static str {
        let field = |id| match self.plan.element(ElementId::Field(id)) {
            Some(Element::Field(field)) => grade(field.known),
            _ => "",
        };
        let roof = |id| match self.plan.element(ElementId::Roof(id)) {
            Some(Element::Roof(roof)) => grade(roof.known),
            _ => "",
        };
        match *reason {
            Reason::JoistsLapOver { field: id }
            | Reason::JoistsEndOn { field: id }
            | Reason::JoistsPassOver { field: id }
            | Reason::JoistsCross { field: id }
            | Reason::JoistsRunAlong { field: id } => field(id),
            Reason::RoofStandsOn { roof: id }
            | Reason::TrussesPassOver { roof: id }
            | Reason::RoofGoesToEaves { roof: id } => roof(id),
            Reason::GapSeen => "seen",
            _ => "",
        }
    }

    /// A caution as a sentence or two.
    #[must_use]
    pub fn caution(&self, caution: &Caution) -> String {
        match *caution {
            Caution::TiesCutIfFlush { .. } => {
                "The ceiling joists over it tie the rafters. A beam set between them cuts \
                                               the ties: they have to be joined across it."
                    .to_owned()
            }
            Caution::EndsNeedPath => "Whatever replaces it brings its load to two ends: each needs a path down to a \
                                      pier or pad."
                .to_owned(),
            Caution::OffsetOverJoistDepth { offset, depth, .. } => format!(
                "It stands {} off the support below, and the joists are {} deep: more than the joist depth has to be \
                 designed (IRC R502.4).",
                self.length(offset),
                self.length(depth)
            ),
            Caution::OffsetOnIJoists { offset, .. } => format!(
                "It stands {} off the support below on I-joists: any offset on I-joists has to be designed, with \
                 blocking under the wall.",
                self.length(offset)
            ),
            Caution::TrussesMaySettle { .. } => "If this wall was there before the roof was loaded, the trusses may \
                                                 rest on it and come down a little when it goes."
                .to_owned(),
            Caution::DoNotCutTrusses { .. } => "No chord and no web of a truss may be cut.".to_owned(),
            Caution::ParallelRuleMisleads => "Joists run along it on one side, and it carries all the same: running \
                                              along a wall proves nothing by itself."
                .to_owned(),
            Caution::KeepOrReplaceCornerPost { .. } => {
                "It holds the corner of the opening in the deck: it stays, or a \
                                                        column takes its place with the deck held up meanwhile."
                    .to_owned()
            }
            Caution::GuardAtOpenSide { .. } => "It stands beside an opening in the deck: once it is low or gone, the \
                                                open side needs a guard."
                .to_owned(),
            Caution::BeamBelowIsNoProof { beam } => format!(
                "{} lies under its line. That is no proof of load from above: the beam is there for the floor.",
                self.name(ElementId::Beam(beam))
            ),
            Caution::CheckBothSides => "Look along both sides, over its whole length: joists may turn.".to_owned(),
            Caution::MayBrace => "It may brace the house against wind and earthquake, whatever it carries: that is a \
                                  question of its own, for the engineer."
                .to_owned(),
            Caution::StandsOnJoists { field } => capital(&format!(
                "it stands on {} between their supports, with nothing in line below.",
                self.field(field)
            )),
            Caution::FloorDipExpected => "Expect a dip in the floor along it.".to_owned(),
            Caution::ServicesInside => {
                "Look for wires, pipes and ducts in it, and for asbestos and lead paint on it.".to_owned()
            }
        }
    }

    /// A finding as a sentence.
    #[must_use]
    pub fn finding(&self, finding: &Finding) -> String {
        let weight = finding.weights.map(|weights| pounds(weights.all())).unwrap_or_default();
        let level = self.level(finding.level);
        match &finding.problem {
            Problem::MembersUnsupported { field, count } => format!(
                "{level}: {count} of the {} {} nothing to rest on at one end ({weight} with nowhere to go).",
                self.field(*field),
                if *count == 1 { "has" } else { "have" }
            ),
            Problem::RoofUnsupported { roof, count } => format!(
                "{level}: {count} {} do not reach two outside walls ({weight} with nowhere to go).",
                self.roof_members(*roof)
            ),
            Problem::WallOnNothing { wall } => format!(
                "{} stands on nothing that is drawn below ({weight} with nowhere to go).",
                self.name(ElementId::Wall(*wall))
            ),
            Problem::PostOnNothing { post } => format!(
                "{} stands on nothing that is drawn below ({weight} with nowhere to go).",
                self.name(ElementId::Post(*post))
            ),
            Problem::BeamUnsupported { beam } => format!(
                "{} has nothing to rest on at one end ({weight} with nowhere to go).",
                self.name(ElementId::Beam(*beam))
            ),
            Problem::BeamLoop { beams } => {
                let names: Vec<String> = beams.iter().map(|beam| self.name(ElementId::Beam(*beam))).collect();
                format!("These beams rest on each other in a ring: {} ({weight}).", names.join(", "))
            }
            Problem::PostWithoutFooting { post } => {
                format!(
                    "{} brings {weight} to bare ground or slab: no pad is drawn.",
                    self.name(ElementId::Post(*post))
                )
            }
            Problem::WallWithoutFooting { wall } => format!(
                "{} brings {weight} to the ground: a slab is no footing, and none is drawn under it.",
                self.name(ElementId::Wall(*wall))
            ),
            Problem::SoilOverloaded { footing, pressure, allowed } => format!(
                "{} presses {} on soil taken to bear {}.",
                self.name(ElementId::Footing(*footing)),
                psf(*pressure),
                psf(*allowed)
            ),
            Problem::LongSpan { field, span, count } => format!(
                "{level}: {count} of the {} run {} without a support, further than any table goes.",
                self.field(*field),
                self.length(*span)
            ),
            Problem::LapsNotSeen { field } => format!(
                "{level}: nobody looked whether the {} lap over what they cross; traced as if they do.",
                self.field(*field)
            ),
            Problem::NothingOverhead => format!("{level}: nobody has said yet what is overhead."),
            Problem::NoRoof => format!("{level}: no roof is stated over it; its load is missing."),
            Problem::SnowNotStated => "No ground snow load is stated: snow is missing from every figure.".to_owned(),
            Problem::OutlineOpen => format!("{level}: its outside walls do not close."),
            Problem::OffsetOverJoistDepth { upper, lower, offset } => format!(
                "{} stands {} off {}: more than the joists are deep, so the joists have to be checked.",
                self.name(ElementId::Wall(*upper)),
                self.length(Feet(offset.0 / 12.0)),
                self.name(ElementId::Wall(*lower))
            ),
        }
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
