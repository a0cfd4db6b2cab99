//! Where something was seen: a small flag with a letter for how it is known.

use joistwise_core::observe::{Weight, proof};
use joistwise_core::plan::Grade;
use joistwise_core::words::Words;

use super::labels::Rank;
use super::sheet::{SMALL, Sheet, label};
use super::{Anchor, Label};
use crate::ink::{Dash, Fill, Ink, MEDIUM, Stroke, THIN};
use crate::view::Screen;

/// Half the height of a flag, in CSS pixels.
pub(crate) const RADIUS: f64 = 6.0;
/// Scale above which flags get words, in CSS pixels a foot.
const WORDS: f64 = 14.0;

/// Draws the flags: filled where it was seen or measured, open where it was told or assumed; a cross through those that
/// prove nothing.
pub(crate) fn observations(sheet: &mut Sheet) {
    let level = sheet.level;
    for seen in &level.observations {
        let at = sheet.at(seen.at);
        let looked = seen.known <= Grade::Seen;
        let proof = proof(&seen.saw);
        let ink = if proof.weight == Weight::Distress { Ink::Gap } else { Ink::Seen };
        let fill = Fill::new(if looked { ink } else { Ink::Paper });
        let corner = |x: f64, y: f64| at + Screen::new(x * RADIUS, y * RADIUS);
        // A flag on its pole: the foot of the pole is the place.
        sheet.polygon(
            vec![corner(0.0, -2.6), corner(2.0, -1.9), corner(0.0, -1.2)],
            Some(fill),
            Some(Stroke::new(ink, THIN)),
        );
        sheet.line(at, corner(0.0, -2.6), Stroke::new(ink, THIN));
        sheet.circle(at, 2.5, Some(fill), Some(Stroke::new(ink, THIN)));
        if proof.weight == Weight::Nothing {
            sheet.line(corner(0.2, -1.2), corner(1.6, -2.6), Stroke::new(ink, THIN));
        }
        sheet.mark(at, RADIUS);
        if sheet.scale() >= WORDS {
            let text = Words::new(sheet.plan, sheet.state.tape).saw(&seen.saw);
            let wide = super::labels::width(&text, SMALL);
            let right = Label { anchor: Anchor::Start, ..label(at + Screen::new(15.0, -11.0), &text, ink, SMALL) };
            let places =
                [(15.0, 8.0), (-wide - 6.0, -11.0), (-wide - 6.0, 8.0), (-wide / 2.0, 16.0), (-wide / 2.0, -24.0)];
            sheet.wish(right, Rank::Note, places.iter().map(|(x, y)| at + Screen::new(*x, *y)).collect());
        }
    }
}

/// How far the bracket of a studied stretch stands off the wall's line, in CSS pixels.
const BRACKET: f64 = 11.0;
/// Radius of the numbered mark of a look, in CSS pixels.
const LOOK: f64 = 10.0;

/// Marks where a look is worth most, with its number in the list.
pub(crate) fn looks(sheet: &mut Sheet) {
    // A study asks of one wall; marks of looks would lie in its way.
    if sheet.state.studied.is_some() {
        return;
    }
    let level = sheet.level.id;
    let marks: Vec<(usize, Screen)> = sheet
        .state
        .looks
        .iter()
        .enumerate()
        .filter(|(_, look)| look.level == level)
        .map(|(number, look)| (number + 1, sheet.at(look.at)))
        .collect();
    for (number, at) in marks {
        let beside = [(0.0, -22.0), (0.0, 22.0), (22.0, 0.0), (-22.0, 0.0), (22.0, -22.0), (-22.0, 22.0), (34.0, 0.0)];
        let places = beside.into_iter().map(|(x, y)| at + Screen::new(x, y));
        let Some(badge) = places.into_iter().find(|place| !sheet.is_crowded(*place, LOOK)) else { continue };
        sheet.line(at, badge, Stroke::new(Ink::Seen, THIN));
        sheet.circle(at, 2.5, Some(Fill::new(Ink::Seen)), None);
        sheet.badge(badge, LOOK, &number.to_string(), Ink::Seen, Ink::Paper, Ink::Paper);
    }
}

/// Brackets the stretch that is studied: a line on each side of the wall, closed at its ends.
pub(crate) fn studied(sheet: &mut Sheet) {
    let Some((a, b)) = sheet.state.studied else { return };
    let (a, b) = (sheet.at(a), sheet.at(b));
    let off = (b - a).unit().left() * BRACKET;
    sheet.polygon(
        vec![a + off, b + off, b - off, a - off],
        None,
        Some(Stroke::new(Ink::Gap, MEDIUM).dash(Dash::Dashed)),
    );
}
