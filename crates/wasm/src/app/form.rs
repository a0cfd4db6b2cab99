//! The values of a part as text, by name, and the edit that another text makes of one.
//!
//! Captions are the page's; which names a form shows is its business too.

use std::collections::BTreeMap;

use joistwise_core::ids::{ElementId, LevelId};
use joistwise_core::loads::layers::NotListed;
use joistwise_core::plan::{
    Cut, Edit, EditError, Element, FootingShape, Meets, MemberError, Plan, Point, RoofForm, RoofFrame, WallEnd,
};
use joistwise_core::tape::{self, Bare, NotRead, Tape};
use joistwise_core::units::{Psf, Ticks};

pub(super) mod text;
mod with;

use text::{
    counted, factor, layer_lines, length_of, longer, opening_words, place, placed, short, unless_empty, way, weight,
    word,
};
pub(super) use text::{load, meant};
pub(super) use with::{field_with, frame_meant, roof_with};
use with::{footing_with, frame_word, joist_cut_with, opening_with, wall_with};

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
    #[error("'{0}' is not a count: write a whole number from 0 to 20, or leave it empty if nobody counted")]
    Count(String),
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
    let place = |at: Point| placed(at, tape);
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
            ("bracing", word(&wall.bracing)),
            ("truss_bearing", wall.truss_bearing.to_string()),
            ("layers", layer_lines(&wall.layers)),
            ("height", wall.height.map(long).unwrap_or_default()),
        ]),
        Element::Opening(opening) => Values::from([
            ("kind", word(&opening.kind)),
            ("width", long(opening.width)),
            ("offset", long(opening.offset)),
            ("header", word(&opening.header)),
            ("first_jacks", counted(opening.first.jacks)),
            ("first_kings", counted(opening.first.kings)),
            ("second_jacks", counted(opening.second.jacks)),
            ("second_kings", counted(opening.second.kings)),
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
            let (at, member) = (place(post.at), post.member.to_string());
            Values::from([("name", post.name.clone()), ("at", at), ("kind", word(&post.kind)), ("member", member)])
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
        Element::JoistCut(cut) => {
            let own = match cut.cut {
                Cut::Notch { depth, length, place, edge } => vec![
                    ("cut", "notch".to_owned()),
                    ("depth", short(depth)),
                    ("long", short(length)),
                    ("place", word(&place)),
                    ("edge", word(&edge)),
                ],
                Cut::Hole { diameter, to_edge } => {
                    vec![("cut", "hole".to_owned()), ("diameter", short(diameter)), ("to_edge", short(to_edge))]
                }
            };
            own.into_iter().chain([("at", place(cut.at)), ("known", word(&cut.known))]).collect()
        }
        Element::Board(board) => Values::from([
            ("kind", word(&board.kind)),
            ("length", long(length_of(board.a, board.b))),
            ("a", place(board.a)),
            ("b", place(board.b)),
            ("known", word(&board.known)),
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
        ("soil_class", site.soil_class.map(|class| word(&class)).unwrap_or_default()),
    ])
}

/// The edit that gives one value of a part another text.
pub(super) fn set(plan: &Plan, part: ElementId, key: &str, text: &str) -> Result<Edit, FormError> {
    let end = |end: WallEnd| Ok(Edit::MoveEnd { element: part, end, to: place(text)? });
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
                "at" => post.at = place(text)?,
                "name" => post.name = text.trim().to_owned(),
                "kind" => post.kind = meant(text)?,
                "member" => post.member = text.parse()?,
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
                "feet" => purlin.feet = if text.trim().is_empty() { None } else { Some(place(text)?) },
                "spacing" => purlin.spacing = tape::read_as(text, Bare::Inches)?,
                "known" => purlin.known = meant(text)?,
                _ => return Err(FormError::NoSuchValue(key.to_owned())),
            }
            Element::Purlin(purlin)
        }
        Element::Observation(seen) => Element::Observation(super::seen::with(seen, key, text)?),
        Element::JoistCut(cut) => Element::JoistCut(joist_cut_with(cut, key, text)?),
        Element::Board(mut board) => {
            match key {
                "a" => return end(WallEnd::A),
                "b" => return end(WallEnd::B),
                "length" => return longer(part, board.a, board.b, text),
                "kind" => board.kind = meant(text)?,
                "known" => board.known = meant(text)?,
                _ => return Err(FormError::NoSuchValue(key.to_owned())),
            }
            Element::Board(board)
        }
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
        "soil_class" => site.soil_class = unless_empty(text, meant)?,
        _ => return Err(FormError::NoSuchValue(key.to_owned())),
    }
    Ok(Edit::Site(site))
}

#[cfg(test)]
mod tests;
