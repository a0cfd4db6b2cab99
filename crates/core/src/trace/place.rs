//! Which outline holds a place, and where a line leaves one for another.

use super::bar::Bearer;
use super::strips::EPS;
use crate::geometry::{self, Spot};
use crate::order::InOrder as _;
use crate::plan::Point;

/// A place this near an edge lies on it, in feet: far over rounding, far under a tick.
const ON_EDGE: f64 = 10.0 * EPS;

/// Whether an outline holds a place; its edge counts.
pub(super) fn holds(corners: &[Spot], at: Spot) -> bool {
    let mut inside = false;
    for (a, b) in sides(corners) {
        let (way, to) = ((b.x.0 - a.x.0, b.y.0 - a.y.0), (at.x.0 - a.x.0, at.y.0 - a.y.0));
        let square = way.0 * way.0 + way.1 * way.1;
        if square < EPS * EPS {
            continue;
        }
        let share = ((way.0 * to.0 + way.1 * to.1) / square).clamp(0.0, 1.0);
        let off = (to.0 - way.0 * share, to.1 - way.1 * share);
        if off.0 * off.0 + off.1 * off.1 <= ON_EDGE * ON_EDGE {
            return true;
        }
        if (a.y > at.y) != (b.y > at.y) && way.0 * to.1 / way.1 > to.0 {
            inside = !inside;
        }
    }
    inside
}

/// The shares of a line at which it crosses sides of an outline, or meets their ends.
pub(super) fn stops(corners: &[Spot], (from, to): (Spot, Spot), stops: &mut Vec<f64>) {
    let way = (to.x.0 - from.x.0, to.y.0 - from.y.0);
    let square = way.0 * way.0 + way.1 * way.1;
    let off = |at: Spot| way.0 * (at.y.0 - from.y.0) - way.1 * (at.x.0 - from.x.0);
    let along = |at: Spot| (way.0 * (at.x.0 - from.x.0) + way.1 * (at.y.0 - from.y.0)) / square;
    let hair = EPS * square.sqrt();
    for (a, b) in sides(corners) {
        let (one, other) = (off(a), off(b));
        if one.abs() <= hair || other.abs() <= hair {
            stops.extend([(a, one), (b, other)].into_iter().filter(|it| it.1.abs() <= hair).map(|it| along(it.0)));
        } else if (one > 0.0) != (other > 0.0) {
            let share = one / (one - other);
            stops.push(along(a) * (1.0 - share) + along(b) * share);
        }
    }
}

/// The pieces of a line by what `of` says of the middle of each, as shares of it; neighbours that are alike are one piece.
pub(super) fn pieces<T: PartialEq>(mut stops: Vec<f64>, mut of: impl FnMut(f64) -> T) -> Vec<((f64, f64), T)> {
    stops.retain(|stop| *stop > 0.0 && *stop < 1.0);
    stops.extend([0.0, 1.0]);
    stops.order_by(f64::total_cmp);
    let mut pieces: Vec<((f64, f64), T)> = Vec::new();
    for pair in stops.windows(2) {
        let [from, to] = *pair else { continue };
        if to - from < EPS && !pieces.is_empty() {
            pieces.iter_mut().next_back().into_iter().for_each(|last| last.0.1 = to);
            continue;
        }
        let here = of((from + to) / 2.0);
        match pieces.last_mut() {
            Some(last) if last.1 == here => last.0.1 = to,
            _ => pieces.push(((from, to), here)),
        }
    }
    pieces
}

/// How much of a line lies in some outlines, as a share of it.
pub(super) fn share_inside(outlines: &[Vec<Spot>], line: (Spot, Spot)) -> f64 {
    let mut all = Vec::new();
    outlines.iter().for_each(|corners| stops(corners, line, &mut all));
    let inside = |share: f64| outlines.iter().any(|corners| holds(corners, on(line, share)));
    pieces(all, inside).iter().filter(|it| it.1).map(|it| it.0.1 - it.0.0).sum()
}

/// A place on a line by its share.
pub(super) fn on((from, to): (Spot, Spot), share: f64) -> Spot {
    Spot { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share }
}

/// Of what stands at some places, all that is nearest to one, each bearer once: a sliver there is theirs alike.
pub(super) fn nearest(stand: &[(Bearer, f64, Spot)], at: Spot) -> Vec<(Bearer, f64)> {
    let off = |it: &(Bearer, f64, Spot)| geometry::apart(it.2, at).0;
    let least = stand.iter().map(off).fold(f64::INFINITY, f64::min);
    let mut here: Vec<(Bearer, f64)> =
        stand.iter().filter(|it| off(it) <= least + ON_EDGE).map(|it| (it.0, it.1)).collect();
    here.order_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    here.dedup_by_key(|it| it.0);
    here
}

/// Outlines in feet.
pub(super) fn spots(outlines: &[Vec<Point>]) -> Vec<Vec<Spot>> {
    outlines.iter().map(|corners| corners.iter().copied().map(Spot::from).collect()).collect()
}

fn sides(corners: &[Spot]) -> impl Iterator<Item = (Spot, Spot)> {
    corners.iter().copied().zip(corners.iter().copied().cycle().skip(1))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Feet;

    fn at(x: f64, y: f64) -> Spot {
        Spot { x: Feet(x), y: Feet(y) }
    }

    #[test]
    fn an_outline_holds_its_edge_and_a_line_is_cut_where_it_leaves_it_in_ft() {
        let ell = [at(0.0, 0.0), at(10.0, 0.0), at(10.0, 4.0), at(6.0, 4.0), at(6.0, 8.0), at(0.0, 8.0)];
        assert!(holds(&ell, at(10.0, 2.0)) && holds(&ell, at(6.0, 6.0)) && holds(&ell, at(3.0, 7.0)));
        assert!(!holds(&ell, at(7.0, 6.0)) && !holds(&ell, at(10.0001, 2.0)));
        // From (0, 6) to (12, 6): inside as far as x = 6 ft.
        assert!((share_inside(&[ell.to_vec()], (at(0.0, 6.0), at(12.0, 6.0))) - 0.5).abs() < 1e-12);
        // Along an edge, all of it.
        assert!((share_inside(&[ell.to_vec()], (at(10.0, 0.0), at(10.0, 4.0))) - 1.0).abs() < 1e-12);
        // It touches with its end: nothing.
        assert!(share_inside(&[ell.to_vec()], (at(10.0, 2.0), at(15.0, 2.0))).abs() < 1e-6);
    }
}
