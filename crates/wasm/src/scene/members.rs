//! Beams, posts and footings.

use joistwise_core::plan::{Beam, FootingShape, Material, Member, Post, PostKind, Set};
use joistwise_core::units::{Feet, Inches};

use super::labels::{Rank, width};
use super::sheet::{SMALL, Sheet, along, label};
use super::vector::sides;
use crate::ink::{Dash, FINE, Fill, Ink, MEDIUM, Stroke, THIN};
use crate::view::Screen;

/// Draws the pads and strips; they lie under everything else.
pub(crate) fn footings(sheet: &mut Sheet) {
    let level = sheet.level;
    let edge = Stroke::new(Ink::Footing, THIN).dash(Dash::Hidden);
    for footing in &level.footings {
        match footing.shape {
            FootingShape::Pad { at, side } => {
                let (middle, px) = (sheet.at(at), sheet.px(side.feet()));
                sheet.polygon(square_around(middle, px), Some(Fill::wash(Ink::Paper, 0.6)), Some(edge));
                let text = format!("pad {}", sheet.tape(side.feet()));
                let below = middle + Screen::new(0.0, px / 2.0 + 9.0);
                let above = middle - Screen::new(0.0, px / 2.0 + 9.0);
                sheet.wish(label(below, &text, Ink::Footing, SMALL), Rank::Note, vec![above]);
            }
            FootingShape::Strip { a, b, width } => {
                let corners = strip(sheet.at(a), sheet.at(b), sheet.px(width.feet()));
                sheet.polygon(corners, None, Some(edge));
            }
        }
    }
}

/// Draws the beams: dashed and double where they are under the joists, solid and double where they are between them.
pub(crate) fn beams(sheet: &mut Sheet) {
    let level = sheet.level;
    for beam in &level.beams {
        let corners = beam_corners(sheet, beam);
        let (a, b) = (sheet.at(beam.a), sheet.at(beam.b));
        sheet.polygon(corners.clone(), Some(Fill::wash(Ink::Paper, 0.75)), None);
        let edge = Stroke::new(Ink::Beam, MEDIUM);
        let edge = if beam.set == Set::Dropped { edge.dash(Dash::Dashed) } else { edge };
        let way = (b - a).unit();
        let pieces: Vec<[Screen; 2]> = sides(&corners).map(|(from, to)| [from, to]).collect();
        let (long, short) = pieces.into_iter().partition(|[from, to]| (*to - *from).cross(way).abs() < 0.5);
        sheet.lines(long, edge);
        sheet.lines(short, Stroke::new(Ink::Beam, MEDIUM));
        let half = sheet.px(member_width(&beam.member)).max(5.0) / 2.0;
        sheet.words.keep_off_along(a, b, half);
        let text = beam_text(beam);
        let Some((a, b)) = sheet.visible(a, b) else { continue };
        let length = (b - a).length();
        if length > width(&text, SMALL) + 12.0 {
            let off = way.readable().left() * (half + 9.0);
            let (middle, quarter) = (a.middle(b), way * (length * 0.25));
            let spots = [middle, middle - quarter, middle + quarter];
            let places: Vec<Screen> =
                spots.iter().map(|at| *at + off).chain(spots.iter().map(|at| *at - off)).collect();
            let text = along(label(middle + off, &text, Ink::Beam, SMALL), way);
            sheet.wish(text, Rank::Name, places);
        }
    }
}

fn beam_text(beam: &Beam) -> String {
    let name = beam.name.as_str();
    let text = match (name, beam.member.is_seen()) {
        ("", true) => beam.member.to_string(),
        ("", false) => "beam, size not seen".to_owned(),
        (_, true) => format!("{name} {}", beam.member),
        (_, false) => format!("{name}, size not seen"),
    };
    if beam.set == Set::Flush { format!("{text}, flush") } else { text }
}

/// Draws the posts: a crossed square, round for steel, hatched for a pier.
pub(crate) fn posts(sheet: &mut Sheet) {
    let level = sheet.level;
    for post in &level.posts {
        let (at, side) = (sheet.at(post.at), post_side(sheet, post));
        let corners = square_around(at, side);
        let edge = Stroke::new(Ink::Post, MEDIUM);
        let fill = Some(Fill::new(Ink::Paper));
        if post.kind == PostKind::Steel {
            sheet.circle(at, side / 2.0, fill, Some(edge));
            let arm = side / 2.0;
            let cross = [Screen::new(arm, 0.0), Screen::new(0.0, arm)];
            sheet.lines(cross.iter().map(|arm| [at - *arm, at + *arm]).collect(), Stroke::new(Ink::Post, THIN));
        } else {
            sheet.polygon(corners.clone(), fill, Some(edge));
            match post.kind {
                PostKind::Pier => {
                    sheet.hatch(&corners, Screen::new(1.0, -1.0), 4.0, Stroke::new(Ink::Post, FINE));
                }
                PostKind::StudPack => {
                    let third = Screen::new(side / 6.0, 0.0);
                    let up = Screen::new(0.0, side / 2.0);
                    let lines = [at - third, at + third].iter().map(|at| [*at - up, *at + up]).collect();
                    sheet.lines(lines, Stroke::new(Ink::Post, THIN));
                }
                PostKind::Wood | PostKind::Steel => {
                    let crossed = corners.iter().zip(corners.iter().skip(2)).map(|(a, b)| [*a, *b]).collect();
                    sheet.lines(crossed, Stroke::new(Ink::Post, THIN));
                }
            }
        }
        sheet.mark(at, side / 2.0 + 1.0);
        if !post.name.is_empty() {
            let beside = Screen::new(side / 2.0 + 6.0, -side / 2.0 - 6.0);
            let other = Screen::new(side / 2.0 + 6.0, side / 2.0 + 8.0);
            let text =
                super::Label { anchor: super::Anchor::Start, ..label(at + beside, &post.name, Ink::Beam, SMALL) };
            sheet.wish(text, Rank::Name, vec![at + other]);
        }
    }
}

/// The four corners of a beam on the canvas.
pub(crate) fn beam_corners(sheet: &Sheet, beam: &Beam) -> Vec<Screen> {
    strip(sheet.at(beam.a), sheet.at(beam.b), sheet.px(member_width(&beam.member)).max(5.0))
}

/// How wide a member is, seen from above: dressed width of its plies, or a usual width where the size does not say.
pub(crate) fn member_width(member: &Member) -> Feet {
    let inches = match member.material {
        Material::Sawn => f64::from(member.plies) * (f64::from(member.nominal_width) - 0.5),
        Material::Lvl => f64::from(member.plies) * 1.75,
        Material::IJoist => f64::from(member.plies) * 2.5,
        Material::Glulam | Material::NotSeen => 3.5,
        Material::Steel => 5.0,
    };
    Feet(Inches(inches).0 / 12.0)
}

/// Side of a post on the canvas: a usual size, and never too small to be seen.
pub(crate) fn post_side(sheet: &Sheet, post: &Post) -> f64 {
    let inches = match post.kind {
        PostKind::Wood => 5.5,
        PostKind::Steel => 4.0,
        PostKind::StudPack => 4.5,
        PostKind::Pier => 12.0,
    };
    sheet.px(Feet(inches / 12.0)).max(9.0)
}

/// A square around its middle.
pub(crate) fn square_around(at: Screen, side: f64) -> Vec<Screen> {
    let h = side / 2.0;
    [(-h, -h), (h, -h), (h, h), (-h, h)].iter().map(|(x, y)| at + Screen::new(*x, *y)).collect()
}

/// The four corners of a strip along a line.
pub(crate) fn strip(a: Screen, b: Screen, wide: f64) -> Vec<Screen> {
    let off = (b - a).unit().left() * (wide / 2.0);
    vec![a + off, b + off, b - off, a - off]
}
