//! What lies in and on the deck: openings with the headers at their ends, boards, cuts in joists, and heavy things.

use joistwise_core::ids::ElementId;
use joistwise_core::plan::{Cut, Stands};
use joistwise_core::words;

use super::labels::{Box, Rank, width};
use super::sheet::{SMALL, Sheet, along, label};
use super::{Anchor, Label};
use crate::ink::{Dash, FINE, Fill, Ink, MEDIUM, Stroke, THIN};
use crate::view::Screen;

/// Draws the heavy things on the floor of the level: their outline, what they are, what they weigh.
pub(crate) fn things(sheet: &mut Sheet) {
    let level = sheet.level;
    for thing in &level.things {
        let corners: Vec<Screen> = thing.corners.iter().map(|corner| sheet.at(*corner)).collect();
        sheet.polygon(corners.clone(), Some(Fill::wash(Ink::Paper, 0.7)), Some(Stroke::new(Ink::Beam, THIN)));
        if thing.stands == Stands::OnLegs {
            for at in &corners {
                sheet.circle(*at, 3.0, Some(Fill::new(Ink::Beam)), None);
            }
        } else {
            sheet.hatch(&corners, Screen::new(1.0, 1.0), 9.0, Stroke::new(Ink::Beam, FINE).faint(0.35));
        }
        let name = words::Words::new(sheet.plan, sheet.state.tape).name(ElementId::Thing(thing.id));
        let weight = thing.weighs().map_or_else(|| "weight?".to_owned(), words::pounds);
        let middle = middle(&corners);
        let below = middle + Screen::new(0.0, 14.0);
        let text = format!("{} {weight}", name.to_lowercase());
        sheet.wish(label(middle, &text, Ink::Beam, SMALL), Rank::Name, vec![below]);
    }
}

/// Radius of the mark of a notch or hole in CSS pixels.
pub(crate) const CUT: f64 = 5.0;

/// Draws rim boards, blocking and ledgers: thin, a dash and two dots.
pub(crate) fn boards(sheet: &mut Sheet) {
    let level = sheet.level;
    for board in &level.boards {
        let (a, b) = (sheet.at(board.a), sheet.at(board.b));
        sheet.line(a, b, Stroke::new(Ink::Beam, MEDIUM).dash(Dash::Board));
        let Some((a, b)) = sheet.visible(a, b) else { continue };
        let text = words::board(board.kind).to_lowercase();
        if (b - a).length() > width(&text, SMALL) + 12.0 {
            let way = (b - a).unit();
            let off = way.readable().left() * 9.0;
            let (middle, quarter) = (a.middle(b), way * ((b - a).length() * 0.25));
            let places = [middle - off, middle + quarter + off, middle - quarter + off].to_vec();
            sheet.wish(along(label(middle + off, &text, Ink::Beam, SMALL), way), Rank::Note, places);
        }
    }
}

/// Draws the notches and holes in joists: a ring for a hole, a wedge for a notch, with a word if it is past the limits.
pub(crate) fn cuts(sheet: &mut Sheet) {
    let (level, trace) = (sheet.level, sheet.trace);
    for cut in &level.cuts {
        let at = sheet.at(cut.at);
        let edge = Some(Stroke::new(Ink::Words, MEDIUM));
        match cut.cut {
            Cut::Hole { .. } => sheet.circle(at, CUT, Some(Fill::new(Ink::Paper)), edge),
            Cut::Notch { .. } => {
                let wedge = [(-CUT, -CUT), (CUT, -CUT), (0.0, CUT)];
                let points = wedge.iter().map(|(x, y)| at + Screen::new(*x, *y)).collect();
                sheet.polygon(points, Some(Fill::new(Ink::Paper)), edge);
            }
        }
        sheet.mark(at, CUT + 1.0);
        let past = trace.cuts.iter().any(|it| it.cut == cut.id && !it.limits.is_empty());
        let word = words::cut_word(&cut.cut).to_lowercase();
        let text = if past { format!("{word}: check") } else { word };
        let place = |x: f64, y: f64| at + Screen::new(x, y);
        let text = Label { anchor: Anchor::Start, ..label(place(CUT + 5.0, 0.0), &text, Ink::Words, SMALL) };
        sheet.wish(text, Rank::Note, vec![place(CUT + 3.0, -11.0), place(CUT + 3.0, 11.0)]);
    }
}

/// Draws the openings of the deck over the level: a crossed outline, and doubled headers where they are traced.
pub(crate) fn floor_openings(sheet: &mut Sheet) {
    let level = sheet.level;
    for opening in &level.floor_openings {
        let corners: Vec<Screen> = opening.corners.iter().map(|corner| sheet.at(*corner)).collect();
        sheet.polygon(corners.clone(), Some(Fill::wash(Ink::Paper, 0.85)), Some(Stroke::new(Ink::FloorOpening, THIN)));
        if let [a, b, c, d] = corners.as_slice() {
            sheet.lines(vec![[*a, *c], [*b, *d]], Stroke::new(Ink::FloorOpening, FINE).faint(0.7));
        }
        let middle = middle(&corners);
        let extent = corners.iter().fold(0.0_f64, |most, at| most.max((*at - middle).length()));
        if extent > 20.0 {
            sheet.wish(label(middle, "open", Ink::FloorOpening, SMALL), Rank::Name, Vec::new());
        }
    }
    let headers: Vec<[Screen; 2]> = sheet
        .trace
        .headers
        .iter()
        .filter(|header| header.level == sheet.level.id)
        .flat_map(|header| {
            let (a, b) = (sheet.at(header.a), sheet.at(header.b));
            let off = (b - a).unit().left() * 2.0;
            [[a + off, b + off], [a - off, b - off]]
        })
        .collect();
    for [a, b] in &headers {
        sheet.words.keep_off(Box::around(&[*a, *b], 1.0));
    }
    sheet.lines(headers, Stroke::new(Ink::FloorOpening, THIN));
}

/// The mean of some corners.
pub(crate) fn middle(corners: &[Screen]) -> Screen {
    let sum = corners.iter().fold(Screen::default(), |sum, corner| sum + *corner);
    let count = f64::from(u32::try_from(corners.len()).unwrap_or(u32::MAX).max(1));
    sum * (1.0 / count)
}
