//! What people type and read on a tape: `12' 6 1/2"`, `12-6.5`, `150.5 in`, `3.82 m`.
//!
//! Reading is kind, and a refusal says what would be taken. No other quantity than length is read here.

use crate::units::Ticks;

/// A text that is not a length.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("'{0}' is not a length: write 12' 6 1/2\", 12-6.5, 150.5 in, 12.5 ft, 3.82 m or 382 cm")]
pub struct NotRead(String);

/// A text as it is quoted in a refusal: one short line.
pub(crate) fn quoted(text: &str, longest: usize) -> String {
    let text = text.trim();
    let mut line: String = text.chars().take(longest).map(|c| if c.is_control() { ' ' } else { c }).collect();
    if text.chars().nth(longest).is_some() {
        line.push('…');
    }
    line
}

/// What a bare number means.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Bare {
    /// Feet: lengths of walls.
    #[default]
    Feet,
    /// Inches: spacings and thicknesses.
    Inches,
}

/// Which tape a length is printed for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Tape {
    /// Feet, inches and sixteenths.
    #[default]
    Feet,
    /// Metres and millimetres.
    Metric,
}

/// Reads a length, in feet if no unit is written.
///
/// ```
/// use joistwise_core::{tape, units::Ticks};
/// let want = Ok(Ticks::from_feet(12) + Ticks::from_sixteenths(6 * 16 + 8));
/// assert_eq!(tape::read("12' 6 1/2\""), want);
/// assert_eq!(tape::read("12-6.5"), want);
/// assert_eq!(tape::read("150.5 in"), want);
/// ```
pub fn read(text: &str) -> Result<Ticks, NotRead> {
    read_as(text, Bare::Feet)
}

/// Reads a length with the unit that a bare number stands for.
pub fn read_as(text: &str, bare: Bare) -> Result<Ticks, NotRead> {
    let plain = plain(text);
    parse(&plain, bare).ok_or_else(|| NotRead(quoted(text, 60)))
}

/// Reads `length x width`, as in `36' x 24'` or `11 m x 7.3 m`.
pub fn read_pair(text: &str) -> Result<(Ticks, Ticks), NotRead> {
    let error = || NotRead(quoted(text, 60));
    let plain = plain(text);
    let (first, second) = plain.split_once(" by ").or_else(|| plain.split_once('x')).ok_or_else(error)?;
    match (parse(first.trim(), Bare::Feet), parse(second.trim(), Bare::Feet)) {
        (Some(length), Some(width)) if length > Ticks::ZERO && width > Ticks::ZERO => Ok((length, width)),
        _ => Err(error()),
    }
}

/// Reads inches with a fraction, as in `9 1/2`.
pub(crate) fn inches(text: &str) -> Option<Ticks> {
    parse(&plain(text), Bare::Inches)
}

/// One spelling for each mark: straight quotes, lower case, plain fractions.
fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.trim().chars() {
        match c {
            '’' | '‘' | '′' => out.push('\''),
            '”' | '“' | '″' => out.push('"'),
            '½' => out.push_str(" 1/2"),
            '¼' => out.push_str(" 1/4"),
            '¾' => out.push_str(" 3/4"),
            '⅛' => out.push_str(" 1/8"),
            '⅜' => out.push_str(" 3/8"),
            '⅝' => out.push_str(" 5/8"),
            '⅞' => out.push_str(" 7/8"),
            '×' => out.push('x'),
            '–' | '−' => out.push('-'),
            ',' => out.push('.'),
            c => out.extend(c.to_lowercase()),
        }
    }
    out.replace("''", "\"")
}

fn parse(text: &str, bare: Bare) -> Option<Ticks> {
    let text = text.trim();
    if let Some(rest) = text.strip_prefix('-') {
        return parse(rest, bare).map(|length| -length);
    }
    let metric = |suffix: &str, inches_per_unit: f64| {
        let number = text.strip_suffix(suffix)?.trim().parse::<f64>().ok()?;
        Ticks::from_inches(number * inches_per_unit)
    };
    if let Some(length) = metric("mm", 1.0 / 25.4).or_else(|| metric("cm", 10.0 / 25.4)) {
        return Some(length);
    }
    if let Some(length) = metric("m", 1000.0 / 25.4) {
        return Some(length);
    }
    for (mark, keep) in [("feet", ""), ("foot", ""), ("ft", ""), ("'", "")] {
        if let Some((feet, rest)) = text.split_once(mark) {
            let feet = number(feet)?;
            let rest = rest.trim_start_matches(['.', ' ']).trim_start_matches('-');
            let rest = unmarked_inches(rest.strip_prefix(keep)?);
            let inches = if rest.trim().is_empty() { 0.0 } else { number(rest)? };
            return Ticks::from_inches(feet * 12.0 + inches);
        }
    }
    let without = unmarked_inches(text);
    if without.len() < text.len() {
        return Ticks::from_inches(number(without)?);
    }
    // 12-6.5 and 12-6-8 (sixteenths); 6-1/2 is six inches and a half.
    let parts: Vec<&str> = text.split('-').map(str::trim).collect();
    match parts.as_slice() {
        [one] => match bare {
            Bare::Inches => Ticks::from_inches(number(one)?),
            Bare::Feet if one.contains('/') => Ticks::from_inches(number(one)?),
            Bare::Feet => Ticks::from_inches(number(one)? * 12.0),
        },
        [whole, fraction] if fraction.contains('/') && !fraction.contains(' ') => {
            Ticks::from_inches(number(whole)? + number(fraction)?)
        }
        [feet, inches] => Ticks::from_inches(number(feet)? * 12.0 + number(inches)?),
        [feet, inches, sixteenths] => {
            Ticks::from_inches(number(feet)? * 12.0 + number(inches)? + number(sixteenths)? / 16.0)
        }
        _ => None,
    }
}

fn unmarked_inches(text: &str) -> &str {
    let text = text.trim();
    ["inches", "inch", "in.", "in", "\""].iter().find_map(|mark| text.strip_suffix(mark)).unwrap_or(text).trim_end()
}

/// `6`, `6.5`, `6 1/2`, `1/2`: no sign, no exponent.
fn number(text: &str) -> Option<f64> {
    let text = text.trim();
    let decimal = |part: &str| {
        let plain = !part.is_empty() && part.chars().all(|c| c.is_ascii_digit() || c == '.');
        plain.then(|| part.parse::<f64>().ok()).flatten()
    };
    let fraction = |part: &str| {
        let (top, bottom) = part.split_once('/')?;
        let bottom = decimal(bottom.trim()).filter(|b| *b > 0.0)?;
        Some(decimal(top.trim())? / bottom)
    };
    if let Some((whole, rest)) = text.split_once(' ') {
        return Some(decimal(whole)? + fraction(rest.trim())?);
    }
    if text.contains('/') { fraction(text) } else { decimal(text) }
}

/// Feet and inches to the nearest sixteenth: `12' 6 1/2"`.
#[must_use]
pub fn feet_inches(length: Ticks) -> String {
    let sixteenths = (i64::from(length.get().abs()) * 2 + 127) / 254;
    let sign = sign(length, sixteenths);
    let (feet, rest) = (sixteenths / 192, sixteenths % 192);
    // A fraction right after feet would be read as one of a foot.
    let none = if (1..16).contains(&rest) { "0 " } else { "" };
    format!("{sign}{feet}' {none}{}\"", whole_and_fraction(rest))
}

/// Inches with a fraction, without a mark: `9 1/2`.
#[must_use]
pub fn in_fraction(length: Ticks) -> String {
    let sixteenths = (i64::from(length.get().abs()) * 2 + 127) / 254;
    let sign = sign(length, sixteenths);
    format!("{sign}{}", whole_and_fraction(sixteenths))
}

/// Metres to the millimetre: `3.823 m`.
#[must_use]
pub fn metres(length: Ticks) -> String {
    let millimetres = (i64::from(length.get().abs()) + 40) / 80;
    let sign = sign(length, millimetres);
    format!("{sign}{}.{:03} m", millimetres / 1000, millimetres % 1000)
}

/// The sign of a length that prints as so much; nothing has none.
fn sign(length: Ticks, printed: i64) -> &'static str {
    if length < Ticks::ZERO && printed > 0 { "-" } else { "" }
}

/// A length as this tape reads it.
#[must_use]
pub fn print(length: Ticks, tape: Tape) -> String {
    match tape {
        Tape::Feet => feet_inches(length),
        Tape::Metric => metres(length),
    }
}

fn whole_and_fraction(sixteenths: i64) -> String {
    let (whole, mut top) = (sixteenths / 16, sixteenths % 16);
    if top == 0 {
        return whole.to_string();
    }
    let mut bottom = 16;
    while top % 2 == 0 {
        top /= 2;
        bottom /= 2;
    }
    if whole == 0 { format!("{top}/{bottom}") } else { format!("{whole} {top}/{bottom}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sixteenths(feet: i32, inches: i32, sixteenths: i32) -> Ticks {
        Ticks::from_feet(feet) + Ticks::from_sixteenths(inches * 16 + sixteenths)
    }

    #[test]
    fn a_fraction_of_an_inch_after_feet_is_printed_with_its_nought_and_read_back() {
        let length = sixteenths(7, 0, 13);
        assert_eq!(print(length, Tape::Feet), "7' 0 13/16\"");
        assert_eq!(read("7' 0 13/16\"").unwrap(), length);
        assert_eq!(print(sixteenths(7, 0, 0), Tape::Feet), "7' 0\"");
    }

    #[test]
    fn every_habit_of_writing_twelve_feet_six_and_a_half_inches_is_read() {
        let texts = [
            "12' 6 1/2\"",
            "12'6.5\"",
            "12'-6 1/2\"",
            "12-6.5",
            "12-6-8",
            "150.5 in",
            "150 1/2\"",
            "12ft 6.5in",
            "12 feet 6 1/2 inches",
            "12’ 6½”",
            "12' 6 1/2",
            "12.541666667",
            "12.541666667'",
        ];
        for text in texts {
            assert_eq!(read(text), Ok(sixteenths(12, 6, 8)), "{text}");
        }
    }

    #[test]
    fn metric_and_bare_inches_are_read() {
        assert_eq!(read("3.82 m"), Ok(Ticks::new(3820 * 80)));
        assert_eq!(read("3,82m"), Ok(Ticks::new(3820 * 80)));
        assert_eq!(read("382 cm"), Ok(Ticks::new(3820 * 80)));
        assert_eq!(read_as("16", Bare::Inches), Ok(sixteenths(1, 4, 0)));
        assert_eq!(read("6-1/2"), Ok(sixteenths(0, 6, 8)));
        assert_eq!(read_pair("36' x 24'"), Ok((Ticks::from_feet(36), Ticks::from_feet(24))));
        assert_eq!(read_pair("11 m x 7.3 m"), Ok((Ticks::new(11_000 * 80), Ticks::new(7_300 * 80))));
        assert_eq!(read_pair("36x24"), Ok((Ticks::from_feet(36), Ticks::from_feet(24))));
    }

    #[test]
    fn what_is_not_a_length_is_refused_with_a_sentence() {
        for text in ["", "twelve", "12'6'6", "1/0", "1e9", "12 6", "99999999", "36 x", "nan"] {
            assert!(read(text).is_err(), "{text}");
        }
        assert!(read("twelve").is_err_and(|e| e.to_string().contains("write 12' 6 1/2\"")));
        assert!(read_pair("36").is_err());
    }

    #[test]
    fn a_printed_length_reads_back_to_the_sixteenth() {
        for n in (0..40_000).step_by(7) {
            let length = Ticks::from_sixteenths(n);
            assert_eq!(read(&feet_inches(length)), Ok(length));
        }
        assert_eq!(feet_inches(sixteenths(12, 0, 0)), "12' 0\"");
        assert_eq!(metres(Ticks::new(3823 * 80)), "3.823 m");
    }
}
