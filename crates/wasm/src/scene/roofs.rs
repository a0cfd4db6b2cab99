//! Roofs: eaves, ridges, hips and changes of slope as dashed lines overhead; purlins with their struts.

use joistwise_core::geometry::{Frame, Spot};
use joistwise_core::ids::ElementId;
use joistwise_core::order::InOrder as _;
use joistwise_core::plan::{Level, Point, Roof, RoofForm, RoofFrame, TrussMake};
use joistwise_core::tape;
use joistwise_core::trace::{Node, RibKind, RibTrace, RoofTrace};
use joistwise_core::units::Feet;
use joistwise_core::words::over_roof;
use joistwise_core::words::roof_name;

use super::joists::{across_extent, intervals};
use super::labels::{Rank, width};
use super::sheet::{SMALL, Sheet, along, label};
use crate::ink::{Dash, FINE, Fill, Ink, MEDIUM, Stroke, THIN};
use crate::view::{Layer, Screen};

/// A piece of line on the plan.
type Piece = (Spot, Spot);

/// Draws the roofs over the level.
pub(crate) fn roofs(sheet: &mut Sheet) {
    if sheet.state.roof == Layer::Hidden {
        return;
    }
    let level = sheet.level;
    for roof in &level.roofs {
        let trace = sheet.trace.roofs.iter().find(|it| it.roof == roof.id);
        let hips = hips(trace);
        let on_sheet = |pieces: Vec<Piece>| -> Vec<[Screen; 2]> {
            pieces.iter().map(|(a, b)| [sheet.at(*a), sheet.at(*b)]).collect()
        };
        let eaves = on_sheet(if hips.is_empty() { eaves(level, roof) } else { around(&hips) });
        let ridges = on_sheet(ridge_lines(level, roof, trace));
        let valleys = trace.into_iter().flat_map(|it| &it.ribs).filter(|rib| rib.kind == RibKind::Valley);
        let slopes = hips.iter().copied().chain(valleys).map(|rib| (rib.a, rib.b));
        let slopes = on_sheet(slopes.chain(breaks(level, roof)).collect());
        sheet.lines(eaves.clone(), Stroke::new(Ink::Eave, THIN).dash(Dash::Dashed).faint(0.7));
        sheet.lines(slopes, Stroke::new(Ink::Eave, FINE).dash(Dash::Centre).faint(0.8));
        if roof.frame == RoofFrame::RidgeBeam {
            sheet.lines(ridges.clone(), Stroke::new(Ink::Beam, MEDIUM).dash(Dash::Dashed));
        } else if roof.form != RoofForm::Shed {
            sheet.lines(ridges.clone(), Stroke::new(Ink::Eave, THIN).dash(Dash::Centre).faint(0.8));
        }
        openings(sheet, roof);
        caption(sheet, &words(roof), &ridges, &eaves);
    }
    let purlins: Vec<RibTrace> =
        sheet.trace.roofs.iter().filter(|it| it.level == level.id).flat_map(of_purlins).collect();
    for rib in purlins {
        purlin(sheet, &rib);
    }
    let bare = level.purlins.iter().filter(|it| it.feet.is_none());
    let bare: Vec<[Screen; 2]> = bare.map(|it| [sheet.at(it.a), sheet.at(it.b)]).collect();
    sheet.lines(bare, Stroke::new(Ink::Eave, MEDIUM).dash(Dash::Dashed).faint(0.6));
}

/// The openings of a roof: the rafters between two headers are cut, and what stands over them is named.
fn openings(sheet: &mut Sheet, roof: &Roof) {
    for opening in &roof.openings {
        let (from, to) = (opening.from, opening.to);
        let corners = [from, Point::new(to.x, from.y), to, Point::new(from.x, to.y)].map(|at| sheet.at(at));
        let stroke = Stroke::new(Ink::Eave, THIN).dash(Dash::Dashed);
        sheet.polygon(corners.to_vec(), None, Some(stroke));
        let [a, _, b, _] = corners;
        let middle = (a + b) * 0.5;
        sheet.wish(label(middle, over_roof(opening.over), Ink::Caption, SMALL), Rank::Note, Vec::new());
    }
}

/// The ridges of a roof as it is traced: between the heads of its hips, if it has any.
pub(crate) fn ridge_lines(level: &Level, roof: &Roof, trace: Option<&RoofTrace>) -> Vec<Piece> {
    let hips = hips(trace);
    if hips.is_empty() { ridges(level, roof) } else { between(&hips) }
}

fn hips(trace: Option<&RoofTrace>) -> Vec<&RibTrace> {
    trace.into_iter().flat_map(|it| &it.ribs).filter(|rib| rib.kind == RibKind::Hip).collect()
}

fn of_purlins(roof: &RoofTrace) -> Vec<RibTrace> {
    roof.ribs.iter().filter(|rib| rib.kind == RibKind::Purlin).cloned().collect()
}

/// A purlin: its line, and each strut from it to its foot; a foot on joists is open.
fn purlin(sheet: &mut Sheet, rib: &RibTrace) {
    let (a, b) = (sheet.at(rib.a), sheet.at(rib.b));
    sheet.line(a, b, Stroke::new(Ink::Eave, MEDIUM).dash(Dash::Dashed));
    let struts: Vec<[Screen; 2]> = rib.struts.iter().map(|it| [sheet.at(it.head), sheet.at(it.foot)]).collect();
    sheet.lines(struts, Stroke::new(Ink::Eave, THIN).faint(0.8));
    for strut in &rib.struts {
        let fill = Fill::new(if strut.on == Node::Gap { Ink::Paper } else { Ink::Eave });
        let foot = sheet.at(strut.foot);
        sheet.circle(foot, 2.5, Some(fill), Some(Stroke::new(Ink::Eave, THIN)));
    }
    let way = (b - a).unit().readable();
    let off = way.left() * 9.0;
    let text = rib
        .purlin
        .map(|id| joistwise_core::words::Words::new(sheet.plan, sheet.state.tape).name(ElementId::Purlin(id)));
    let text = text.unwrap_or_default().to_lowercase();
    if (b - a).length() > width(&text, SMALL) + 16.0 {
        let on = |share: f64, side: f64| a + (b - a) * share + off * side;
        let label = along(label(on(0.5, 1.0), &text, Ink::Caption, SMALL), way);
        sheet.wish(label, Rank::Note, vec![on(0.25, 1.0), on(0.75, 1.0), on(0.5, -1.0), on(0.25, -1.0)]);
    }
}

/// The eaves of a hip roof: from foot to foot of its hips.
fn around(hips: &[&RibTrace]) -> Vec<Piece> {
    let feet: Vec<Spot> = hips.iter().map(|hip| hip.a).collect();
    match feet.as_slice() {
        [a, b, c, d] => vec![(*a, *b), (*c, *d), (*a, *c), (*b, *d)],
        _ => Vec::new(),
    }
}

/// The ridge between the heads of hips.
fn between(hips: &[&RibTrace]) -> Vec<Piece> {
    match hips {
        [first, .., last] => vec![(first.b, last.b)],
        _ => Vec::new(),
    }
}

/// Where the slope of a gambrel changes.
fn breaks(level: &Level, roof: &Roof) -> Vec<Piece> {
    let RoofForm::Gambrel { lower_run, .. } = roof.form else { return Vec::new() };
    let inward = -(lower_run.feet() + roof.overhang.feet());
    let frame = Frame::of(roof.ridge);
    let moved = |(a, b): Piece| {
        let ((from, across), (to, _)) = (frame.local(a), frame.local(b));
        let middle = ridges(level, roof).first().map_or(across, |ridge| frame.local(ridge.0).1);
        let by = if middle > across { -inward } else { inward };
        (frame.spot(from, across + by), frame.spot(to, across + by))
    };
    eaves(level, roof).into_iter().map(moved).collect()
}

/// What the roof is, beside its ridge, or outside its upper eave where walls leave no room there.
fn caption(sheet: &mut Sheet, text: &str, ridges: &[[Screen; 2]], eaves: &[[Screen; 2]]) {
    let longest = ridges.iter().copied().max_by(|[a, b], [c, d]| (*b - *a).length().total_cmp(&(*d - *c).length()));
    let Some([a, b]) = longest else {
        return;
    };
    if (b - a).length() < width(text, SMALL) + 16.0 {
        return;
    }
    let way = (b - a).unit().readable();
    let off = way.left() * 9.0;
    let upper = eaves.iter().copied().max_by(|[a, b], [c, d]| a.middle(*b).dot(off).total_cmp(&c.middle(*d).dot(off)));
    let on = |[a, b]: [Screen; 2], share: f64, side: f64| a + (b - a) * share + off * side;
    let mut places: Vec<Screen> = [0.8, 0.35, 0.65, 0.2, 0.8, 0.5, 0.5]
        .iter()
        .zip([1.0, 1.0, 1.0, -1.0, -1.0, 1.0, -1.0])
        .map(|(share, side)| on([a, b], *share, side))
        .collect();
    places.extend(upper.iter().flat_map(|eave| [0.75, 0.25, 0.5].map(|share| on(*eave, share, 1.1))));
    let text = along(label(on([a, b], 0.2, 1.0), text, Ink::Caption, SMALL), way);
    sheet.wish(text, Rank::Note, places);
}

fn words(roof: &Roof) -> String {
    let frame = match roof.frame {
        RoofFrame::NotSeen => "framing not seen",
        RoofFrame::RidgeBoard => "rafters, ridge board",
        RoofFrame::RidgeBeam => "rafters, ridge beam",
        RoofFrame::OverFramed => "built on the roof under it",
        RoofFrame::Trusses { make: TrussMake::InsideBearing, .. } => "trusses, bearing inside",
        RoofFrame::Trusses { .. } => "trusses",
    };
    let name = if roof.form == RoofForm::Gable { "roof".to_owned() } else { roof_name(roof).to_lowercase() };
    format!("{name} {} in 12, {frame}", tape::in_fraction(roof.rise))
}

/// The ridges of a roof: half way between the eaves, piece by piece where the eaves step.
pub(crate) fn ridges(level: &Level, roof: &Roof) -> Vec<Piece> {
    let frame = Frame::of(roof.ridge);
    let square = Frame::of(roof.ridge.square());
    let stated = roof.ridge_at.filter(|_| roof.form.has_ridge()).map(|at| frame.local(at.into()).1);
    let mut pieces: Vec<Piece> = Vec::new();
    for corners in level.polygons(&roof.region) {
        let mut stops: Vec<Feet> = corners.iter().map(|corner| frame.local((*corner).into()).0).collect();
        stops.order_by(|a, b| a.0.total_cmp(&b.0));
        stops.dedup_by(|a, b| (*a - *b).abs() < Feet(0.05));
        for pair in stops.windows(2) {
            let [from, to] = pair else { continue };
            let half_way = (*from + *to) / 2.0;
            // The line square to the ridge, half way along the piece.
            let (_, level) = square.local(frame.spot(half_way, Feet::ZERO));
            for (eave, other) in intervals(&corners, &square, level) {
                let middle = square.spot((eave + other) / 2.0, level);
                let across = stated.unwrap_or_else(|| frame.local(middle).1);
                pieces.push((frame.spot(*from, across), frame.spot(*to, across)));
            }
        }
    }
    joined(pieces)
}

/// Pieces that go on where the one before ends, as one.
fn joined(pieces: Vec<Piece>) -> Vec<Piece> {
    let mut out: Vec<Piece> = Vec::new();
    for (a, b) in pieces {
        match out.last_mut() {
            Some(last) if (last.1.x - a.x).abs() < Feet(0.05) && (last.1.y - a.y).abs() < Feet(0.05) => last.1 = b,
            _ => out.push((a, b)),
        }
    }
    out
}

/// The eaves of a roof: the sides that run along the ridge, moved outward by the overhang.
fn eaves(level: &Level, roof: &Roof) -> Vec<Piece> {
    let frame = Frame::of(roof.ridge);
    let mut pieces = Vec::new();
    for corners in level.polygons(&roof.region) {
        let Some((low, high)) = across_extent(&corners, &frame) else { continue };
        let ends = corners.iter().copied().zip(corners.iter().copied().cycle().skip(1));
        for (a, b) in ends {
            let runs_along = Frame::between(a, b).is_some_and(|side| side.squareness(&frame) < 0.05);
            if runs_along {
                pieces.push(moved_out(&corners, &frame, (a, b), roof.overhang.feet(), (low, high)));
            }
        }
    }
    pieces
}

fn moved_out(corners: &[Point], frame: &Frame, side: (Point, Point), by: Feet, extent: (Feet, Feet)) -> Piece {
    let ((a, across), (b, other)) = (frame.local(side.0.into()), frame.local(side.1.into()));
    let middle = (a + b) / 2.0;
    let just = (extent.1 - extent.0) * 1e-4;
    // Inside just left of the side means that outward is to the right.
    let above = frame.spot(middle, (across + other) / 2.0 + just);
    let square = Frame::of(joistwise_core::plan::Way::X);
    let inside = intervals(corners, &square, above.y).iter().any(|(from, to)| *from < above.x && above.x < *to);
    let out = if inside { -by } else { by };
    (frame.spot(a, across + out), frame.spot(b, other + out))
}
