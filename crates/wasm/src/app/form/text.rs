//! What people type, read; and what is known, printed as they would type it.

use joistwise_core::geometry;
use joistwise_core::ids::ElementId;
use joistwise_core::loads::layers::Listed;
use joistwise_core::plan::{Edit, Over, Point, RoofOpening, WallEnd, Way};
use joistwise_core::tape::{self, Tape};
use joistwise_core::units::{Pounds, Psf, Ticks};
use joistwise_core::words;
use serde::Serialize;
use serde::de::DeserializeOwned;

use super::FormError;

/// Layers, one a line.
pub(in crate::app) fn layer_lines(layers: &[Listed]) -> String {
    layers.iter().map(|it| it.layer().what).collect::<Vec<_>>().join("\n")
}

/// The layers that lines of their names stand for.
pub(in crate::app) fn layers_meant(text: &str) -> Result<Vec<Listed>, FormError> {
    text.lines().filter(|line| !line.trim().is_empty()).map(|line| Ok(line.parse()?)).collect()
}

/// An opening in a roof as one line: where, and what stands over it.
pub(in crate::app) fn opening_words(opening: &RoofOpening, tape: Tape) -> String {
    let front =
        if opening.over == Over::Glass { String::new() } else { format!(" {}", tape::print(opening.front, tape)) };
    format!("{} to {}, {}{front}", placed(opening.from, tape), placed(opening.to, tape), words::over_roof(opening.over))
}

/// The opening that a line stands for.
pub(in crate::app) fn opening_meant(line: &str) -> Result<RoofOpening, FormError> {
    let wrong = || FormError::RoofOpening(line.trim().to_owned());
    let (places, over) = line.split_once(',').ok_or_else(wrong)?;
    let (from, to) = places.split_once(" to ").ok_or_else(wrong)?;
    let over = over.trim();
    let kinds = [Over::Glass, Over::GableDormer, Over::ShedDormer];
    let named = |kind: &Over| over.strip_prefix(words::over_roof(*kind)).map(|rest| (*kind, rest.trim().to_owned()));
    let (over, front) = kinds.iter().find_map(named).ok_or_else(wrong)?;
    let front = if front.is_empty() { Ticks::default() } else { tape::read(&front)? };
    Ok(RoofOpening { from: place(from)?, to: place(to)?, over, front })
}

/// A weight in pounds; none if empty: then the usual one counts.
pub(in crate::app) fn weight(text: &str) -> Result<Option<Pounds>, FormError> {
    let bare = text.trim().trim_end_matches("lb").trim().replace(',', "");
    if bare.is_empty() {
        return Ok(None);
    }
    let pounds = bare.parse::<f64>().ok().filter(|pounds| *pounds >= 0.0);
    pounds.map(|pounds| Some(Pounds(pounds))).ok_or_else(|| FormError::Weight(text.trim().to_owned()))
}

/// The way a word stands for; a slanted one stays as it is.
pub(in crate::app) fn way_meant(word: &str, now: Way) -> Result<Way, FormError> {
    match word.trim() {
        "x" => Ok(Way::X),
        "y" => Ok(Way::Y),
        word if word == way(now) => Ok(now),
        word => Err(FormError::Way(word.to_owned())),
    }
}

pub(in crate::app) fn way(way: Way) -> String {
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
pub(in crate::app) fn word<T: Serialize>(choice: &T) -> String {
    let value = serde_json::to_value(choice).ok();
    value.as_ref().and_then(serde_json::Value::as_str).unwrap_or_default().to_owned()
}

/// The choice that a word of the house file stands for.
pub(in crate::app) fn meant<T: DeserializeOwned>(word: &str) -> Result<T, FormError> {
    let value = serde_json::Value::String(word.to_owned());
    serde_json::from_value(value).map_err(|_| FormError::NoSuchValue(word.to_owned()))
}

/// A factor; none for the usual one.
pub(in crate::app) fn factor(text: &str) -> Result<Option<f64>, FormError> {
    unless_empty(text, |text| text.trim().replace(',', ".").parse().map_err(|_| FormError::Factor(text.to_owned())))
}

/// A load in psf; none for the usual one.
pub(in crate::app) fn load(text: &str) -> Result<Option<Psf>, FormError> {
    let plain = text.trim().trim_end_matches("psf").trim();
    unless_empty(plain, |plain| plain.replace(',', ".").parse().map(Psf).map_err(|_| FormError::Load(text.to_owned())))
}

pub(in crate::app) fn unless_empty<T, E>(text: &str, read: impl Fn(&str) -> Result<T, E>) -> Result<Option<T>, E> {
    if text.trim().is_empty() { Ok(None) } else { read(text).map(Some) }
}

pub(in crate::app) fn place(text: &str) -> Result<Point, FormError> {
    let (east, north) = text.split_once(';').ok_or_else(|| FormError::Place(text.to_owned()))?;
    Ok(Point::new(tape::read(east)?, tape::read(north)?))
}

/// A place as it is typed: east; north.
pub(in crate::app) fn placed(at: Point, tape: Tape) -> String {
    format!("{}; {}", tape::print(at.x, tape), tape::print(at.y, tape))
}

/// The far end moved along the line, so that it has this length.
pub(in crate::app) fn longer(element: ElementId, a: Point, b: Point, text: &str) -> Result<Edit, FormError> {
    let length = tape::read(text)?;
    let to = geometry::along(a, b, length).unwrap_or(b);
    Ok(Edit::MoveEnd { element, end: WallEnd::B, to })
}

pub(in crate::app) fn length_of(a: Point, b: Point) -> Ticks {
    Ticks::from_decimal_feet(geometry::length(a, b)).unwrap_or_default()
}

pub(in crate::app) fn short(length: Ticks, tape: Tape) -> String {
    match tape {
        Tape::Feet => format!("{} in", tape::in_fraction(length)),
        Tape::Metric => tape::metres(length),
    }
}

/// What was counted; empty if nobody did.
pub(in crate::app) fn counted(count: Option<u8>) -> String {
    count.map(|count| count.to_string()).unwrap_or_default()
}

/// A count; none if empty.
pub(in crate::app) fn count(text: &str) -> Result<Option<u8>, FormError> {
    let wrong = || FormError::Count(text.trim().to_owned());
    unless_empty(text, |text| text.trim().parse().ok().filter(|count| *count <= 20).ok_or_else(wrong))
}
