//! Observations as text: what a panel shows of one, and what it makes of one.

use joistwise_core::plan::{Grade, Observation, Saw, Way};
use joistwise_core::survey::{self, Reply, Typed};
use joistwise_core::tape::Tape;
use joistwise_core::units::Ticks;
use serde_json::json;

use super::form::text::{meant, place, placed, short, way, way_meant, word};
use super::form::{FormError, Values};

/// A kind of observation with its detail: a way (`x`, `y`), a size with its spacing (`2x6 at 16 in`), a number of studs, a
/// depth, a year. A text that cannot be read is refused, never taken for something else.
pub(super) fn saw(key: &str, detail: &str) -> Result<Saw, FormError> {
    let detail = detail.trim();
    let along = || way_meant(detail, Way::X);
    Ok(match key {
        "joists_run" => Saw::JoistsRun { along: along()? },
        "floorboards_run" => Saw::FloorboardsRun { along: along()? },
        "nail_rows" => Saw::NailRows { along: along()? },
        "joist_size" => match typed(Typed::Size, detail)? {
            // A size that nobody saw is no sighting.
            Saw::JoistSize { member, .. } if !member.is_seen() => return Err(FormError::Size(detail.to_owned())),
            size => size,
        },
        "age" => typed(Typed::Year, detail)?,
        "sag" if detail.is_empty() => Saw::Sag { by: Ticks::ZERO },
        "sag" => typed(Typed::Sag, detail)?,
        "in_line" => Saw::InLine { below: meant(detail)? },
        "drawing" => Saw::Drawing { says: meant(detail)? },
        "stud_pack" => {
            let studs = detail.parse().ok().filter(|studs| (2..=20).contains(studs));
            Saw::StudPack { studs: studs.ok_or_else(|| FormError::Studs(detail.to_owned()))? }
        }
        _ if detail.is_empty() => meant_alone(key)?,
        _ => return Err(FormError::NoSuchValue(format!("{key} {detail}"))),
    })
}

/// What was seen, by the reader of what people type in the survey.
fn typed(typed: Typed, text: &str) -> Result<Saw, FormError> {
    match survey::read(typed, text)? {
        Reply::Saw(saw) => Ok(saw),
        _ => Err(FormError::NoSuchValue(text.to_owned())),
    }
}

/// A kind without a detail, by its word.
fn meant_alone(key: &str) -> Result<Saw, FormError> {
    serde_json::from_value(json!({ "saw": key })).map_err(|_| FormError::NoSuchValue(key.to_owned()))
}

/// What stands as the detail of a kind until somebody says more.
const fn usual_detail(key: &str) -> &'static str {
    match key.as_bytes() {
        b"joists_run" | b"floorboards_run" | b"nail_rows" => "x",
        b"joist_size" => "2x6",
        b"in_line" => "beam",
        b"drawing" => "bearing",
        b"stud_pack" => "3",
        b"age" => "1960",
        _ => "",
    }
}

/// The detail of a kind, as [`saw`] reads it.
fn detail(saw: &Saw, tape: Tape) -> String {
    match *saw {
        Saw::JoistsRun { along } | Saw::FloorboardsRun { along } | Saw::NailRows { along } => way(along),
        Saw::JoistSize { member, spacing } => {
            let apart = spacing.map(|apart| format!(" at {}", short(apart, tape))).unwrap_or_default();
            format!("{member}{apart}")
        }
        Saw::InLine { below } => word(&below),
        Saw::Drawing { says } => word(&says),
        Saw::StudPack { studs } => studs.to_string(),
        Saw::Sag { by } if by > Ticks::ZERO => short(by, tape),
        Saw::Age { year } => year.to_string(),
        _ => String::new(),
    }
}

/// The values of an observation.
pub(super) fn values(seen: &Observation, tape: Tape) -> Values {
    Values::from([
        ("saw", joistwise_core::observe::proof(&seen.saw).key.to_owned()),
        ("detail", detail(&seen.saw, tape)),
        ("at", placed(seen.at, tape)),
        ("known", word(&seen.known)),
        ("note", seen.note.clone()),
        ("day", seen.day.clone()),
        ("photo", String::from(seen.photo.clone())),
    ])
}

/// The observation with another text for one value.
pub(super) fn with(mut seen: Observation, key: &str, text: &str) -> Result<Observation, FormError> {
    let own = joistwise_core::observe::proof(&seen.saw).key;
    match key {
        // Of the other kind its detail comes along if it reads; else the usual one stands there, and nobody saw that.
        "saw" => match saw(text, &detail(&seen.saw, Tape::Feet)) {
            Ok(kind) => seen.saw = kind,
            Err(_) => {
                seen.saw = saw(text, usual_detail(text))?;
                seen.known = if usual_detail(text).is_empty() { seen.known } else { Grade::Assumed };
            }
        },
        "detail" => seen.saw = saw(own, text)?,
        "at" => seen.at = place(text)?,
        "known" => seen.known = meant(text)?,
        "note" => text.trim().clone_into(&mut seen.note),
        "day" => text.trim().clone_into(&mut seen.day),
        "photo" => seen.photo = text.into(),
        _ => return Err(FormError::NoSuchValue(key.to_owned())),
    }
    Ok(seen)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_detail_is_read_as_it_is_shown() {
        let pairs = [
            ("joists_run", "y"),
            ("joist_size", "2x8 at 16 in"),
            ("stud_pack", "4"),
            ("sag", "5/8 in"),
            ("age", "1931"),
        ];
        for (key, text) in pairs {
            let kind = saw(key, text).unwrap();
            assert_eq!(detail(&kind, Tape::Feet), text, "{key}");
        }
        assert!(saw("joist_size", "wide").is_err() && saw("no_such", "").is_err());
    }

    /// In every kind that takes a detail: refused with the sentence that says what would be taken.
    #[test]
    fn a_detail_that_cannot_be_read_is_refused_in_a_sentence_and_never_kept_as_another() {
        let wrong = [
            ("age", "about 1931", "is not a year"),
            ("age", "", "is not a year"),
            ("stud_pack", "many", "is not a number of studs"),
            ("stud_pack", "300", "is not a number of studs"),
            ("joists_run", "diagonal", "is not a way"),
            ("nail_rows", "up", "is not a way"),
            ("floorboards_run", "", "is not a way"),
            ("joist_size", "", "2x6"),
            ("sag", "a bit", "is not a length"),
            ("in_line", "a girder", "cannot be set here"),
            ("drawing", "maybe", "cannot be set here"),
            ("gap", "wide", "cannot be set here"),
        ];
        for (key, text, says) in wrong {
            let refused = saw(key, text).map_err(|error| error.to_string());
            assert!(refused.as_ref().is_err_and(|it| it.contains(says)), "{key} {text}: {refused:?}");
        }
    }

    #[test]
    fn another_kind_with_a_detail_that_nobody_gave_is_assumed_and_one_without_keeps_its_grade() {
        let (note, day, photo) = (String::new(), String::new(), String::new());
        let at = joistwise_core::plan::Point::feet(1, 2);
        let id = joistwise_core::ids::ObservationId::from_number(7);
        let gap = Observation { id, at, saw: Saw::Gap, known: Grade::Seen, note, day, photo: photo.into() };
        let year = with(gap.clone(), "saw", "age").unwrap();
        assert_eq!((year.saw, year.known), (Saw::Age { year: 1960 }, Grade::Assumed));
        let laps = with(gap, "saw", "joists_lap").unwrap();
        assert_eq!((laps.saw, laps.known), (Saw::JoistsLap, Grade::Seen));
    }
}
