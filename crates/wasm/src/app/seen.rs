//! Observations as text: what a panel shows of one, and what it makes of one.

use joistwise_core::plan::{Observation, Saw};
use joistwise_core::tape::{self, Bare, Tape};
use joistwise_core::units::Ticks;
use serde_json::json;

use super::form::text::{meant, place, placed, short, way, word};
use super::form::{FormError, Values};

/// What is taken where a kind asks for a size of its own and nobody has typed one yet.
const USUAL_SIZE: &str = "2x6";

/// A kind of observation with its detail: a way (`x`, `y`), a size with its spacing (`2x6 at 16 in`), a number of studs, a
/// depth, a year.
pub(super) fn saw(key: &str, detail: &str) -> Result<Saw, FormError> {
    let detail = detail.trim();
    let (size, spacing) = detail.split_once(" at ").map_or((detail, ""), |(size, spacing)| (size, spacing));
    let inches = |text: &str, wanted: bool| -> Result<Option<f64>, FormError> {
        if !wanted || text.is_empty() { Ok(None) } else { Ok(Some(tape::read_as(text, Bare::Inches)?.inches())) }
    };
    let value = json!({
        "saw": key,
        "along": if detail == "y" { [0, 1] } else { [1, 0] },
        "member": if size.is_empty() { USUAL_SIZE } else { size },
        "spacing": inches(spacing, key == "joist_size")?,
        "below": if detail.is_empty() { "beam" } else { detail },
        "says": if detail.is_empty() { "bearing" } else { detail },
        "studs": detail.parse::<u8>().unwrap_or(3),
        "year": detail.parse::<u16>().unwrap_or(1960),
        "by": inches(detail, key == "sag")?.unwrap_or_default(),
    });
    serde_json::from_value(value).map_err(|_| FormError::NoSuchValue(format!("{key} {detail}")))
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
        "saw" => seen.saw = saw(text, "")?,
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
}
