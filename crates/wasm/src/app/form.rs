//! The values of a part as text, by name, and the edit that another text makes of one.
//!
//! Captions are the page's; which names a form shows is its business too.

use std::collections::BTreeMap;

use joistwise_core::geometry;
use joistwise_core::ids::{ElementId, LevelId};
use joistwise_core::loads::layers::{Listed, NotListed};
use joistwise_core::plan::{
    Edit, EditError, Element, Footing, FootingShape, JoistField, Meets, MemberError, Opening, Over, Plan, Point, Roof,
    RoofForm, RoofFrame, RoofOpening, TrussMake, Wall, WallEnd, Way, Webs,
};
use joistwise_core::tape::{self, Bare, NotRead, Tape};
use joistwise_core::units::{Pounds, Psf, Ticks};
use joistwise_core::words;
use serde::Serialize;
use serde::de::DeserializeOwned;

/// Values by name.
pub(super) type Values = BTreeMap<&'static str, String>;

/// Why a text did not become a value.
#[derive(Debug, thiserror::Error)]
pub(super) enum FormError {
    #[error("choose a part first")]
    NothingChosen,
    #[error(transparent)]
    Length(#[from] NotRead),
    #[error(transparent)]
    Member(#[from] MemberError),
    #[error(transparent)]
    Edit(#[from] EditError),
    #[error("{0}: pick it from the list of layers")]
    Layer(#[from] NotListed),
    #[error("'{0}' is not a load: write pounds a square foot, like 20, or leave it empty for the usual one")]
    Load(String),
    #[error(
        "'{0}' is not an opening: write a corner to the corner across and what is over it, like 12'; 3' to 18'; 9', shed dormer 4'"
    )]
    RoofOpening(String),
    #[error("'{0}' is not a factor: write a number, like 1.1, or leave it empty for 1")]
    Factor(String),
    #[error("'{0}' is not a weight: write pounds, like 900, or leave it empty for the usual one")]
    Weight(String),
    #[error("'{0}' is not a place: write east; north, like 12'; 6' 6\"")]
    Place(String),
    #[error("'{0}' cannot be set here")]
    NoSuchValue(String),
}

impl From<FormError> for String {
    fn from(error: FormError) -> Self {
        error.to_string()
    }
}

/// The values of a part.
pub(super) fn values(plan: &Plan, part: ElementId, tape: Tape) -> Values {
    let Some(element) = plan.element(part) else {
        return Values::new();
    };
    let long = |length: Ticks| tape::print(length, tape);
    let short = |length: Ticks| short(length, tape);
    let place = |at: Point| place(at, tape);
    match element {
        Element::Wall(wall) => Values::from([
            ("name", wall.name.clone()),
            ("a", place(wall.a)),
            ("b", place(wall.b)),
            ("length", long(length_of(wall.a, wall.b))),
            ("thickness", short(wall.thickness)),
            ("side", word(&wall.side)),
            ("make", word(&wall.make)),
            ("gable", word(&wall.gable)),
            ("top", word(&wall.top)),
            ("built", word(&wall.built)),
            ("studs", word(&wall.studs)),
            ("truss_bearing", wall.truss_bearing.to_string()),
            ("layers", layer_lines(&wall.layers)),
            ("height", wall.height.map(long).unwrap_or_default()),
        ]),
        Element::Opening(opening) => Values::from([
            ("kind", word(&opening.kind)),
            ("width", long(opening.width)),
            ("offset", long(opening.offset)),
            ("header", word(&opening.header)),
        ]),
        Element::Beam(beam) => Values::from([
            ("name", beam.name.clone()),
            ("a", place(beam.a)),
            ("b", place(beam.b)),
            ("length", long(length_of(beam.a, beam.b))),
            ("member", beam.member.to_string()),
            ("set", word(&beam.set)),
            ("joints", word(&beam.joints)),
        ]),
        Element::Post(post) => {
            Values::from([("name", post.name.clone()), ("at", place(post.at)), ("kind", word(&post.kind))])
        }
        Element::Footing(footing) => {
            let (thickness, make) = (footing.thickness.map(short).unwrap_or_default(), word(&footing.make));
            match footing.shape {
                FootingShape::Pad { at, side } => {
                    Values::from([("at", place(at)), ("side", short(side)), ("thickness", thickness), ("make", make)])
                }
                FootingShape::Strip { a, b, width } => {
                    let ends = [("a", place(a)), ("b", place(b)), ("width", short(width))];
                    ends.into_iter().chain([("thickness", thickness), ("make", make)]).collect()
                }
            }
        }
        Element::Field(field) => Values::from([
            ("along", way(field.along)),
            ("member", field.member.to_string()),
            ("spacing", short(field.spacing)),
            ("joints", word(&field.joints)),
            ("use", word(&field.used_as)),
            ("known", word(&field.known)),
            ("dead", field.dead.map(|psf| psf.0.to_string()).unwrap_or_default()),
            ("layers", layer_lines(&field.layers)),
        ]),
        Element::FloorOpening(_) => Values::new(),
        Element::Roof(roof) => {
            let made = match roof.frame {
                RoofFrame::Trusses { make, webs } => Some([("make", word(&make)), ("webs", word(&webs))]),
                _ => None,
            };
            let (form, slopes) = match roof.form {
                RoofForm::Gable => ("gable", None),
                RoofForm::Shed => ("shed", None),
                RoofForm::Hip => ("hip", None),
                RoofForm::Gambrel { lower_run, upper_rise } => ("gambrel", Some((lower_run, upper_rise))),
            };
            let slopes = slopes.map(|(run, rise)| [("lower_run", long(run)), ("upper_rise", tape::in_fraction(rise))]);
            let valley = (roof.meets == Meets::Valley)
                .then(|| [("long_valley", roof.long_valley.map(place).unwrap_or_default())]);
            let own = Values::from([
                ("form", form.to_owned()),
                ("ridge_at", roof.ridge_at.map(place).unwrap_or_default()),
                ("frame", frame_word(roof.frame).to_owned()),
                ("meets", word(&roof.meets)),
                ("openings", roof.openings.iter().map(|it| opening_words(it, tape)).collect::<Vec<_>>().join("\n")),
                ("ridge", way(roof.ridge)),
                ("rise", tape::in_fraction(roof.rise)),
                ("overhang", short(roof.overhang)),
                ("member", roof.member.to_string()),
                ("spacing", short(roof.spacing)),
                ("known", word(&roof.known)),
                ("dead", roof.dead.map(|psf| psf.0.to_string()).unwrap_or_default()),
                ("layers", layer_lines(&roof.layers)),
            ]);
            let more = [made, slopes].into_iter().flatten().flatten();
            own.into_iter().chain(more).chain(valley.into_iter().flatten()).collect()
        }
        Element::Purlin(purlin) => Values::from([
            ("a", place(purlin.a)),
            ("b", place(purlin.b)),
            ("length", long(length_of(purlin.a, purlin.b))),
            ("member", purlin.member.to_string()),
            ("feet", purlin.feet.map(place).unwrap_or_default()),
            ("spacing", short(purlin.spacing)),
            ("known", word(&purlin.known)),
        ]),
        Element::Thing(thing) => Values::from([
            ("name", thing.name.clone()),
            ("kind", word(&thing.kind)),
            ("weight", thing.weight.map(|pounds| pounds.0.to_string()).unwrap_or_default()),
            ("stands", word(&thing.stands)),
            ("known", word(&thing.known)),
        ]),
        Element::Observation(seen) => super::seen::values(&seen, tape),
    }
}

/// The values of a level.
pub(super) fn level_values(plan: &Plan, level: LevelId, tape: Tape) -> Values {
    plan.level(level).map_or_else(Values::new, |level| {
        let height = tape::print(level.height, tape);
        Values::from([("name", level.name.clone()), ("kind", word(&level.kind)), ("height", height)])
    })
}

/// The values of the house.
pub(super) fn house_values(plan: &Plan) -> Values {
    let site = plan.site();
    let plain = |factor: Option<f64>| factor.map(|factor| factor.to_string()).unwrap_or_default();
    let psf = |load: Option<Psf>| load.map(|psf| psf.0.to_string()).unwrap_or_default();
    Values::from([
        ("name", plan.name().to_owned()),
        ("note", plan.note().to_owned()),
        ("snow", psf(site.ground_snow)),
        ("edition", word(&site.snow_edition)),
        ("exposure", plain(site.exposure)),
        ("thermal", plain(site.thermal)),
        ("importance", plain(site.importance)),
        ("roof_surface", word(&site.roof_surface)),
        ("roof_live", psf(site.roof_live)),
        ("soil", psf(site.soil)),
    ])
}

/// The edit that gives one value of a part another text.
pub(super) fn set(plan: &Plan, part: ElementId, key: &str, text: &str) -> Result<Edit, FormError> {
    let end = |end: WallEnd| Ok(Edit::MoveEnd { element: part, end, to: place_meant(text)? });
    let element = match plan.element(part).ok_or(FormError::NothingChosen)? {
        Element::Wall(wall) => match key {
            "a" => return end(WallEnd::A),
            "b" => return end(WallEnd::B),
            "length" => return longer(part, wall.a, wall.b, text),
            _ => Element::Wall(wall_with(wall, key, text)?),
        },
        Element::Opening(opening) => Element::Opening(opening_with(opening, key, text)?),
        Element::Beam(mut beam) => {
            match key {
                "a" => return end(WallEnd::A),
                "b" => return end(WallEnd::B),
                "length" => return longer(part, beam.a, beam.b, text),
                "name" => beam.name = text.trim().to_owned(),
                "member" => beam.member = text.parse()?,
                "set" => beam.set = meant(text)?,
                "joints" => beam.joints = meant(text)?,
                _ => return Err(FormError::NoSuchValue(key.to_owned())),
            }
            Element::Beam(beam)
        }
        Element::Post(mut post) => {
            match key {
                "at" => post.at = place_meant(text)?,
                "name" => post.name = text.trim().to_owned(),
                "kind" => post.kind = meant(text)?,
                _ => return Err(FormError::NoSuchValue(key.to_owned())),
            }
            Element::Post(post)
        }
        Element::Footing(footing) => Element::Footing(footing_with(footing, key, text)?),
        Element::Field(field) => Element::Field(field_with(field, key, text)?),
        Element::FloorOpening(_) => return Err(FormError::NoSuchValue(key.to_owned())),
        Element::Roof(roof) => Element::Roof(roof_with(roof, key, text)?),
        Element::Purlin(mut purlin) => {
            match key {
                "a" => return end(WallEnd::A),
                "b" => return end(WallEnd::B),
                "length" => return longer(part, purlin.a, purlin.b, text),
                "member" => purlin.member = text.parse()?,
                "feet" => purlin.feet = if text.trim().is_empty() { None } else { Some(place_meant(text)?) },
                "spacing" => purlin.spacing = tape::read_as(text, Bare::Inches)?,
                "known" => purlin.known = meant(text)?,
                _ => return Err(FormError::NoSuchValue(key.to_owned())),
            }
            Element::Purlin(purlin)
        }
        Element::Observation(seen) => Element::Observation(super::seen::with(seen, key, text)?),
        Element::Thing(mut thing) => {
            match key {
                "name" => thing.name = text.trim().to_owned(),
                "kind" => thing.kind = meant(text)?,
                "weight" => thing.weight = weight(text)?,
                "stands" => thing.stands = meant(text)?,
                "known" => thing.known = meant(text)?,
                _ => return Err(FormError::NoSuchValue(key.to_owned())),
            }
            Element::Thing(thing)
        }
    };
    Ok(Edit::Change(element))
}

/// The edit that gives one value of a level another text.
pub(super) fn set_level(plan: &Plan, id: LevelId, key: &str, text: &str) -> Result<Edit, FormError> {
    let level = plan.level(id).ok_or(FormError::NothingChosen)?;
    let (mut name, mut kind, mut height) = (level.name.clone(), level.kind, level.height);
    match key {
        "name" => text.trim().clone_into(&mut name),
        "kind" => kind = meant(text)?,
        "height" => height = tape::read(text)?,
        _ => return Err(FormError::NoSuchValue(key.to_owned())),
    }
    Ok(Edit::Level { id, name, kind, height })
}

/// The edit that gives one value of the house another text.
pub(super) fn set_house(plan: &Plan, key: &str, text: &str) -> Result<Edit, FormError> {
    let mut site = *plan.site();
    match key {
        "name" => return Ok(Edit::Name(text.trim().to_owned())),
        "note" => return Ok(Edit::Note(text.trim().to_owned())),
        "snow" => site.ground_snow = load(text)?,
        "edition" => site.snow_edition = meant(text)?,
        "exposure" => site.exposure = factor(text)?,
        "thermal" => site.thermal = factor(text)?,
        "importance" => site.importance = factor(text)?,
        "roof_surface" => site.roof_surface = meant(text)?,
        "roof_live" => site.roof_live = load(text)?,
        "soil" => site.soil = load(text)?,
        _ => return Err(FormError::NoSuchValue(key.to_owned())),
    }
    Ok(Edit::Site(site))
}

fn wall_with(mut wall: Wall, key: &str, text: &str) -> Result<Wall, FormError> {
    match key {
        "name" => wall.name = text.trim().to_owned(),
        "thickness" => wall.thickness = tape::read_as(text, Bare::Inches)?,
        "side" => wall.side = meant(text)?,
        "make" => wall.make = meant(text)?,
        "gable" => wall.gable = meant(text)?,
        "top" => wall.top = meant(text)?,
        "built" => wall.built = meant(text)?,
        "studs" => wall.studs = meant(text)?,
        "truss_bearing" => wall.truss_bearing = text == "true",
        "layers" => wall.layers = layers_meant(text)?,
        "height" => wall.height = unless_empty(text, tape::read)?,
        _ => return Err(FormError::NoSuchValue(key.to_owned())),
    }
    Ok(wall)
}

fn opening_with(mut opening: Opening, key: &str, text: &str) -> Result<Opening, FormError> {
    match key {
        "kind" => opening.kind = meant(text)?,
        "width" => opening.width = tape::read(text)?,
        "offset" => opening.offset = tape::read(text)?,
        "header" => opening.header = meant(text)?,
        _ => return Err(FormError::NoSuchValue(key.to_owned())),
    }
    Ok(opening)
}

fn footing_with(mut footing: Footing, key: &str, text: &str) -> Result<Footing, FormError> {
    match (key, &mut footing.shape) {
        ("make", _) => footing.make = meant(text)?,
        ("thickness", _) => footing.thickness = unless_empty(text, |text| tape::read_as(text, Bare::Inches))?,
        ("at", FootingShape::Pad { at, .. }) => *at = place_meant(text)?,
        ("side", FootingShape::Pad { side, .. }) => *side = tape::read_as(text, Bare::Inches)?,
        ("a", FootingShape::Strip { a, .. }) => *a = place_meant(text)?,
        ("b", FootingShape::Strip { b, .. }) => *b = place_meant(text)?,
        ("width", FootingShape::Strip { width, .. }) => *width = tape::read_as(text, Bare::Inches)?,
        _ => return Err(FormError::NoSuchValue(key.to_owned())),
    }
    Ok(footing)
}

/// A field with one value changed.
pub(super) fn field_with(mut field: JoistField, key: &str, text: &str) -> Result<JoistField, FormError> {
    match key {
        "along" => field.along = way_meant(text, field.along),
        "member" => field.member = text.parse()?,
        "spacing" => field.spacing = tape::read_as(text, Bare::Inches)?,
        "joints" => field.joints = meant(text)?,
        "use" => field.used_as = meant(text)?,
        "known" => field.known = meant(text)?,
        "dead" => field.dead = load(text)?,
        "layers" => field.layers = layers_meant(text)?,
        _ => return Err(FormError::NoSuchValue(key.to_owned())),
    }
    Ok(field)
}

/// A roof with one value changed.
pub(super) fn roof_with(mut roof: Roof, key: &str, text: &str) -> Result<Roof, FormError> {
    match (key, &mut roof.frame) {
        ("frame", _) => roof.frame = frame_meant(text),
        ("form", _) => roof.form = form_meant(text, roof.form),
        ("lower_run", _) => match &mut roof.form {
            RoofForm::Gambrel { lower_run, .. } => *lower_run = tape::read(text)?,
            _ => return Err(FormError::NoSuchValue(key.to_owned())),
        },
        ("upper_rise", _) => match &mut roof.form {
            RoofForm::Gambrel { upper_rise, .. } => *upper_rise = tape::read_as(text, Bare::Inches)?,
            _ => return Err(FormError::NoSuchValue(key.to_owned())),
        },
        ("meets", _) => roof.meets = meant(text)?,
        ("long_valley", _) => roof.long_valley = unless_empty(text, place_meant)?,
        ("openings", _) => {
            let lines = text.lines().filter(|line| !line.trim().is_empty());
            roof.openings = lines.map(opening_meant).collect::<Result<_, _>>()?;
        }
        ("ridge_at", _) => roof.ridge_at = if text.trim().is_empty() { None } else { Some(place_meant(text)?) },
        ("make", RoofFrame::Trusses { make, .. }) => *make = meant(text)?,
        ("webs", RoofFrame::Trusses { webs, .. }) => *webs = meant(text)?,
        ("ridge", _) => roof.ridge = way_meant(text, roof.ridge),
        ("rise", _) => roof.rise = tape::read_as(text.split(" in 12").next().unwrap_or(text), Bare::Inches)?,
        ("overhang", _) => roof.overhang = tape::read_as(text, Bare::Inches)?,
        ("member", _) => roof.member = text.parse()?,
        ("spacing", _) => roof.spacing = tape::read_as(text, Bare::Inches)?,
        ("known", _) => roof.known = meant(text)?,
        ("dead", _) => roof.dead = load(text)?,
        ("layers", _) => roof.layers = layers_meant(text)?,
        _ => return Err(FormError::NoSuchValue(key.to_owned())),
    }
    Ok(roof)
}

/// The frame that a word stands for; not seen for any other.
pub(super) fn frame_meant(word: &str) -> RoofFrame {
    match word {
        "ridge_board" => RoofFrame::RidgeBoard,
        "ridge_beam" => RoofFrame::RidgeBeam,
        "over_framed" => RoofFrame::OverFramed,
        "trusses" => RoofFrame::Trusses { make: TrussMake::NotSeen, webs: Webs::NotSeen },
        _ => RoofFrame::NotSeen,
    }
}

const fn frame_word(frame: RoofFrame) -> &'static str {
    match frame {
        RoofFrame::NotSeen => "not_seen",
        RoofFrame::RidgeBoard => "ridge_board",
        RoofFrame::RidgeBeam => "ridge_beam",
        RoofFrame::OverFramed => "over_framed",
        RoofFrame::Trusses { .. } => "trusses",
    }
}

/// The form that a word stands for; a gambrel begins with slopes of the usual kind.
fn form_meant(word: &str, now: RoofForm) -> RoofForm {
    match (word, now) {
        ("gambrel", RoofForm::Gambrel { .. }) => now,
        ("gambrel", _) => {
            RoofForm::Gambrel { lower_run: Ticks::from_feet(5), upper_rise: Ticks::from_sixteenths(5 * 16) }
        }
        ("shed", _) => RoofForm::Shed,
        ("hip", _) => RoofForm::Hip,
        _ => RoofForm::Gable,
    }
}

/// Layers, one a line.
fn layer_lines(layers: &[Listed]) -> String {
    layers.iter().map(|it| it.layer().what).collect::<Vec<_>>().join("\n")
}

/// The layers that lines of their names stand for.
fn layers_meant(text: &str) -> Result<Vec<Listed>, FormError> {
    text.lines().filter(|line| !line.trim().is_empty()).map(|line| Ok(line.parse()?)).collect()
}

/// An opening in a roof as one line: where, and what stands over it.
fn opening_words(opening: &RoofOpening, tape: Tape) -> String {
    let place = |at: Point| format!("{}; {}", tape::print(at.x, tape), tape::print(at.y, tape));
    let front =
        if opening.over == Over::Glass { String::new() } else { format!(" {}", tape::print(opening.front, tape)) };
    format!("{} to {}, {}{front}", place(opening.from), place(opening.to), words::over_roof(opening.over))
}

/// The opening that a line stands for.
fn opening_meant(line: &str) -> Result<RoofOpening, FormError> {
    let wrong = || FormError::RoofOpening(line.trim().to_owned());
    let (places, over) = line.split_once(',').ok_or_else(wrong)?;
    let (from, to) = places.split_once(" to ").ok_or_else(wrong)?;
    let over = over.trim();
    let kinds = [Over::Glass, Over::GableDormer, Over::ShedDormer];
    let named = |kind: &Over| over.strip_prefix(words::over_roof(*kind)).map(|rest| (*kind, rest.trim().to_owned()));
    let (over, front) = kinds.iter().find_map(named).ok_or_else(wrong)?;
    let front = if front.is_empty() { Ticks::default() } else { tape::read(&front)? };
    Ok(RoofOpening { from: place_meant(from)?, to: place_meant(to)?, over, front })
}

/// A weight in pounds; none if empty: then the usual one counts.
fn weight(text: &str) -> Result<Option<Pounds>, FormError> {
    let bare = text.trim().trim_end_matches("lb").trim().replace(',', "");
    if bare.is_empty() {
        return Ok(None);
    }
    let pounds = bare.parse::<f64>().ok().filter(|pounds| *pounds >= 0.0);
    pounds.map(|pounds| Some(Pounds(pounds))).ok_or_else(|| FormError::Weight(text.trim().to_owned()))
}

/// The way a word stands for; any other keeps the way as it is.
pub(super) fn way_meant(word: &str, now: Way) -> Way {
    match word {
        "x" => Way::X,
        "y" => Way::Y,
        _ => now,
    }
}

pub(super) fn way(way: Way) -> String {
    let word = if way == Way::X {
        "x"
    } else if way == Way::Y {
        "y"
    } else {
        "slanted"
    };
    word.to_owned()
}

/// A choice as its word in the house file.
pub(super) fn word<T: Serialize>(choice: &T) -> String {
    let value = serde_json::to_value(choice).ok();
    value.as_ref().and_then(serde_json::Value::as_str).unwrap_or_default().to_owned()
}

/// The choice that a word of the house file stands for.
pub(super) fn meant<T: DeserializeOwned>(word: &str) -> Result<T, FormError> {
    let value = serde_json::Value::String(word.to_owned());
    serde_json::from_value(value).map_err(|_| FormError::NoSuchValue(word.to_owned()))
}

/// A factor; none for the usual one.
fn factor(text: &str) -> Result<Option<f64>, FormError> {
    unless_empty(text, |text| text.trim().replace(',', ".").parse().map_err(|_| FormError::Factor(text.to_owned())))
}

/// A load in psf; none for the usual one.
pub(super) fn load(text: &str) -> Result<Option<Psf>, FormError> {
    let plain = text.trim().trim_end_matches("psf").trim();
    unless_empty(plain, |plain| plain.replace(',', ".").parse().map(Psf).map_err(|_| FormError::Load(text.to_owned())))
}

fn unless_empty<T, E>(text: &str, read: impl Fn(&str) -> Result<T, E>) -> Result<Option<T>, E> {
    if text.trim().is_empty() { Ok(None) } else { read(text).map(Some) }
}

pub(super) fn place_meant(text: &str) -> Result<Point, FormError> {
    let (east, north) = text.split_once(';').ok_or_else(|| FormError::Place(text.to_owned()))?;
    Ok(Point::new(tape::read(east)?, tape::read(north)?))
}

/// A place as it is typed: east; north.
pub(super) fn place(at: Point, tape: Tape) -> String {
    format!("{}; {}", tape::print(at.x, tape), tape::print(at.y, tape))
}

/// The far end moved along the line, so that it has this length.
fn longer(element: ElementId, a: Point, b: Point, text: &str) -> Result<Edit, FormError> {
    let length = tape::read(text)?;
    let to = geometry::along(a, b, length).unwrap_or(b);
    Ok(Edit::MoveEnd { element, end: WallEnd::B, to })
}

fn length_of(a: Point, b: Point) -> Ticks {
    Ticks::from_decimal_feet(geometry::length(a, b)).unwrap_or_default()
}

pub(super) fn short(length: Ticks, tape: Tape) -> String {
    match tape {
        Tape::Feet => format!("{} in", tape::in_fraction(length)),
        Tape::Metric => tape::metres(length),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use joistwise_core::ids::{PurlinId, ThingId};
    use joistwise_core::loads::Thing;
    use joistwise_core::plan::{Grade, HeavyThing, Member, Purlin, Region, Stands, Use};

    #[test]
    fn every_value_a_form_shows_can_be_typed_back_and_changes_nothing() {
        let corners = [(0, 0), (36, 0), (36, 24), (0, 24)].map(|(x, y)| Point::feet(x, y)).to_vec();
        let plan = Plan::new("test");
        let level = plan.levels()[0].id;
        let plan = plan.with(&Edit::Outline { level, corners }).expect("an outline");
        let field = JoistField::usual(Region::Outline, Way::Y, Grade::Told, Use::AtticBare);
        let plan = plan.with(&Edit::Add(level, Element::Field(field))).expect("joists");
        let roof = Roof::usual(Way::X, frame_meant("trusses"), Grade::Seen);
        let plan = plan.with(&Edit::Add(level, Element::Roof(roof))).expect("a roof");
        let form = RoofForm::Gambrel { lower_run: Ticks::from_feet(5), upper_rise: Ticks::from_sixteenths(5 * 16) };
        let ridge_at = Some(Point::feet(18, 12));
        let gambrel = Roof::usual(Way::X, RoofFrame::RidgeBeam, Grade::Told);
        let region = Region::Corners([(0, 0), (36, 0), (36, 24), (0, 24)].map(|(x, y)| Point::feet(x, y)).to_vec());
        let opening = RoofOpening {
            from: Point::feet(10, 2),
            to: Point::feet(14, 8),
            over: Over::ShedDormer,
            front: Ticks::from_feet(4),
        };
        let (openings, meets) =
            (vec![opening, RoofOpening { over: Over::Glass, front: Ticks::default(), ..opening }], Meets::Valley);
        let gambrel = Roof { form, ridge_at, region, openings, meets, long_valley: ridge_at, ..gambrel };
        let plan = plan.with(&Edit::Add(level, Element::Roof(gambrel))).expect("a gambrel");
        let purlin = Purlin {
            id: PurlinId::from_number(0),
            a: Point::feet(2, 6),
            b: Point::feet(34, 6),
            member: Member::sawn(2, 6),
            feet: Some(Point::feet(18, 12)),
            spacing: Ticks::from_feet(4),
            known: Grade::Seen,
        };
        let plan = plan.with(&Edit::Add(level, Element::Purlin(purlin))).expect("a purlin");
        let thing = HeavyThing {
            id: ThingId::from_number(0),
            name: "big tank".to_owned(),
            kind: Thing::Tank,
            corners: [(4, 4), (8, 4), (8, 8), (4, 8)].map(|(x, y)| Point::feet(x, y)).to_vec(),
            stands: Stands::OnLegs,
            weight: Some(Pounds(1234.5)),
            known: Grade::Told,
        };
        let plan = plan.with(&Edit::Add(level, Element::Thing(thing))).expect("a heavy thing");
        for part in plan.levels()[0].element_ids() {
            for (key, text) in values(&plan, part, Tape::Feet) {
                let edit = set(&plan, part, key, &text).unwrap_or_else(|error| panic!("{key}: {error}"));
                assert_eq!(plan.with(&edit).expect(key), plan, "{key} of {part:?} as {text}");
            }
            // Metres are printed to the millimetre: what was drawn in feet reads back, but not to the tick.
            for (key, text) in values(&plan, part, Tape::Metric) {
                assert!(set(&plan, part, key, &text).is_ok(), "{key} of {part:?} as {text}");
            }
        }
    }

    #[test]
    fn a_refusal_says_what_would_be_taken() {
        assert!(load("heavy").is_err_and(|error| error.to_string().contains("like 20")));
        assert!(place_meant("12'").is_err_and(|error| error.to_string().contains("east; north")));
    }
}
