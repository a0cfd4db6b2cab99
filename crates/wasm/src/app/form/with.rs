//! A part with one of its values changed.

use joistwise_core::plan::{
    Cut, Footing, FootingShape, JoistCut, JoistField, Opening, Roof, RoofForm, RoofFrame, TrussMake, Wall, Webs,
};
use joistwise_core::tape::{self, Bare};
use joistwise_core::units::Ticks;

use super::FormError;
use super::text::{count, layers_meant, load, meant, opening_meant, place, unless_empty, way_meant};

pub(in crate::app) fn wall_with(mut wall: Wall, key: &str, text: &str) -> Result<Wall, FormError> {
    match key {
        "name" => wall.name = text.trim().to_owned(),
        "thickness" => wall.thickness = tape::read_as(text, Bare::Inches)?,
        "side" => wall.side = meant(text)?,
        "make" => wall.make = meant(text)?,
        "gable" => wall.gable = meant(text)?,
        "top" => wall.top = meant(text)?,
        "built" => wall.built = meant(text)?,
        "studs" => wall.studs = meant(text)?,
        "bracing" => wall.bracing = meant(text)?,
        "truss_bearing" => wall.truss_bearing = text == "true",
        "layers" => wall.layers = layers_meant(text)?,
        "height" => wall.height = unless_empty(text, tape::read)?,
        _ => return Err(FormError::NoSuchValue(key.to_owned())),
    }
    Ok(wall)
}

pub(in crate::app) fn opening_with(mut opening: Opening, key: &str, text: &str) -> Result<Opening, FormError> {
    match key {
        "kind" => opening.kind = meant(text)?,
        "width" => opening.width = tape::read(text)?,
        "offset" => opening.offset = tape::read(text)?,
        "header" => opening.header = meant(text)?,
        "first_jacks" => opening.first.jacks = count(text)?,
        "first_kings" => opening.first.kings = count(text)?,
        "second_jacks" => opening.second.jacks = count(text)?,
        "second_kings" => opening.second.kings = count(text)?,
        _ => return Err(FormError::NoSuchValue(key.to_owned())),
    }
    Ok(opening)
}

pub(in crate::app) fn footing_with(mut footing: Footing, key: &str, text: &str) -> Result<Footing, FormError> {
    match (key, &mut footing.shape) {
        ("make", _) => footing.make = meant(text)?,
        ("thickness", _) => footing.thickness = unless_empty(text, |text| tape::read_as(text, Bare::Inches))?,
        ("at", FootingShape::Pad { at, .. }) => *at = place(text)?,
        ("side", FootingShape::Pad { side, .. }) => *side = tape::read_as(text, Bare::Inches)?,
        ("a", FootingShape::Strip { a, .. }) => *a = place(text)?,
        ("b", FootingShape::Strip { b, .. }) => *b = place(text)?,
        ("width", FootingShape::Strip { width, .. }) => *width = tape::read_as(text, Bare::Inches)?,
        _ => return Err(FormError::NoSuchValue(key.to_owned())),
    }
    Ok(footing)
}

/// A field with one value changed.
pub(in crate::app) fn field_with(mut field: JoistField, key: &str, text: &str) -> Result<JoistField, FormError> {
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
pub(in crate::app) fn roof_with(mut roof: Roof, key: &str, text: &str) -> Result<Roof, FormError> {
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
        ("long_valley", _) => roof.long_valley = unless_empty(text, place)?,
        ("openings", _) => {
            let lines = text.lines().filter(|line| !line.trim().is_empty());
            roof.openings = lines.map(opening_meant).collect::<Result<_, _>>()?;
        }
        ("ridge_at", _) => roof.ridge_at = if text.trim().is_empty() { None } else { Some(place(text)?) },
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
pub(in crate::app) fn frame_meant(word: &str) -> RoofFrame {
    match word {
        "ridge_board" => RoofFrame::RidgeBoard,
        "ridge_beam" => RoofFrame::RidgeBeam,
        "over_framed" => RoofFrame::OverFramed,
        "trusses" => RoofFrame::Trusses { make: TrussMake::NotSeen, webs: Webs::NotSeen },
        _ => RoofFrame::NotSeen,
    }
}

pub(in crate::app) const fn frame_word(frame: RoofFrame) -> &'static str {
    match frame {
        RoofFrame::NotSeen => "not_seen",
        RoofFrame::RidgeBoard => "ridge_board",
        RoofFrame::RidgeBeam => "ridge_beam",
        RoofFrame::OverFramed => "over_framed",
        RoofFrame::Trusses { .. } => "trusses",
    }
}

/// The form that a word stands for; a gambrel begins with slopes of the usual kind.
pub(in crate::app) fn form_meant(word: &str, now: RoofForm) -> RoofForm {
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

/// A notch becomes a hole of the same size, and the other way round.
pub(in crate::app) fn joist_cut_with(mut it: JoistCut, key: &str, text: &str) -> Result<JoistCut, FormError> {
    let inches = |text: &str| tape::read_as(text, Bare::Inches);
    match (key, &mut it.cut) {
        ("at", _) => it.at = place(text)?,
        ("known", _) => it.known = meant(text)?,
        ("cut", Cut::Hole { diameter, .. }) if text == "notch" => {
            let (place, edge) = (Default::default(), Default::default());
            it.cut = Cut::Notch { depth: *diameter, length: *diameter, place, edge };
        }
        ("cut", Cut::Notch { depth, .. }) if text == "hole" => {
            it.cut = Cut::Hole { diameter: *depth, to_edge: Ticks::from_sixteenths(2 * 16) };
        }
        ("cut", _) => {}
        ("depth", Cut::Notch { depth, .. }) => *depth = inches(text)?,
        ("long", Cut::Notch { length, .. }) => *length = inches(text)?,
        ("place", Cut::Notch { place, .. }) => *place = meant(text)?,
        ("edge", Cut::Notch { edge, .. }) => *edge = meant(text)?,
        ("diameter", Cut::Hole { diameter, .. }) => *diameter = inches(text)?,
        ("to_edge", Cut::Hole { to_edge, .. }) => *to_edge = inches(text)?,
        _ => return Err(FormError::NoSuchValue(key.to_owned())),
    }
    Ok(it)
}
