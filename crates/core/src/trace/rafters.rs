//! Roofs: pairs of rafters or trusses laid eave to eave, and what they hand to the outside walls.
//!
//! With a ridge board and ties a pair acts, for vertical reactions, as one simple span from eave to eave; the tie carries
//! the thrust. The ridge itself carries nothing.

use super::bar::{Bar, Burden, Place, times};
use super::carry::Sample;
use super::deck::spread;
use super::seats::{Seats, Use};
use super::storey::Storey;
use super::strips::{Cover, lines};
use super::{Laid, LaidAs, Node, Origin, Problem, Reason, RoofTrace};
use crate::geometry::{Frame, Spot};
use crate::ids::RoofId;
use crate::loads::{AreaLoads, LineLoads, Weights, roof_dead};
use crate::plan::{Joints, Roof, RoofFrame};
use crate::statics::Load;
use crate::thrust::tie;
use crate::units::{Feet, Pounds};

/// Lays and solves one roof over its level.
pub(super) fn roof(storey: &mut Storey<'_>, roof: &Roof) -> RoofTrace {
    let site = *storey.plan.site();
    let rise_per_run = roof.rise.inches() / 12.0;
    let slope = (1.0 + rise_per_run * rise_per_run).sqrt();
    let dead_on_plan = roof.dead.unwrap_or(roof_dead().value) * slope;
    let psf =
        AreaLoads { dead: dead_on_plan, roof_live: site.roof_live(), snow: site.roof_snow(), ..AreaLoads::default() };
    let frame = Frame::of(roof.ridge.square());
    let cover = Cover::new(&frame, &storey.level.polygons(&roof.region), &[]);
    let mut trace = RoofTrace {
        level: storey.level.id,
        roof: roof.id,
        span: Feet::ZERO,
        thrust: LineLoads::default(),
        dead_on_plan,
    };
    let Some(range) = cover.range() else { return trace };
    let seats = Seats::of(storey.level, &frame, Use::Roof);
    let overhang = roof.overhang.feet().0;
    storey.own += psf_over(&psf, cover.area() + cover.ends() * overhang);
    let node = Node::Roof(roof.id);
    let mut unsupported: (usize, Weights, Option<Spot>) = Default::default();
    for line in lines(range, roof.spacing.feet().0, cover.edges(), &[]) {
        for length in cover.lengths(&line) {
            let crossed = seats.crossed(length.s, length.from, length.to);
            // The rafters' feet: the first and the last outside wall.
            let ends = match crossed.as_slice() {
                [first, .., last] => vec![*first, *last],
                few => few.to_vec(),
            };
            let mut shape: Vec<Load> =
                length.ramps.iter().map(|ramp| spread(ramp.from, ramp.to, ramp.start, ramp.end)).collect();
            let (from, to) = (length.from - overhang, length.to + overhang);
            if overhang > 0.0 {
                shape.push(spread(from, length.from, length.ends, length.ends));
                shape.push(spread(length.to, to, length.ends, length.ends));
            }
            let bar = Bar { from, to, seats: ends, beds: Vec::new(), joints: Joints::RunThrough };
            let outcome = bar.solve(&[Burden { tag: node, shape, times: times(&psf, |psf| psf.0) }]);
            let spot = |at: f64| frame.spot(Feet(at), Feet(length.s));
            if !outcome.lost.is_empty() {
                unsupported.0 += 1;
                unsupported.1 += outcome.lost_weight();
                unsupported.2.get_or_insert(spot((from + to) / 2.0));
                storey.lose(node, None, outcome.lost_weight());
            }
            trace.span = trace.span.max(Feet(outcome.longest_span));
            storey.members.push(Laid {
                level: storey.level.id,
                of: node,
                laid_as: LaidAs::Rafter,
                a: spot(from),
                b: spot(to),
                bears: bar.seats.iter().map(|seat| spot(seat.at)).collect(),
                laps: Vec::new(),
                longest_span: Feet(outcome.longest_span),
            });
            for delivery in &outcome.deliveries {
                let Place::Seat(number) = delivery.place else { continue };
                let Some(seat) = bar.seats.get(number) else { continue };
                let strip = seats.strip_on(seat.on, length.across).unwrap_or((seat.along, seat.along));
                storey.put_run(seat.on, strip, node, delivery.weights);
                let Some((square, left_ahead)) = seats.turn(seat.on) else { continue };
                let before = number.checked_sub(1).and_then(|it| bar.seats.get(it));
                let after = bar.seats.get(number + 1);
                let behind = before.map_or(seat.at - from, |it| (seat.at - it.at) / 2.0);
                let ahead = after.map_or(to - seat.at, |it| (it.at - seat.at) / 2.0);
                let (left, right) = if left_ahead { (ahead, behind) } else { (behind, ahead) };
                let reaction = delivery.weights.all().0 / psf.all().0.max(1e-9);
                if let Some(carrier) = storey.carrier(seat.on) {
                    carrier.claim(strip.0, strip.1, Some(Origin::Roof), Reason::RoofStandsOn { roof: roof.id });
                    carrier.samples.push(Sample {
                        from: node,
                        origin: Origin::Roof,
                        start: strip.0,
                        end: strip.1,
                        left: left * square,
                        right: right * square,
                        reaction,
                        through: None,
                    });
                }
                let to = storey.node(seat.on);
                storey.link(node, None, to, delivery.weights);
            }
        }
    }
    if let (count, weights, Some(at)) = unsupported {
        storey.find(at, Problem::RoofUnsupported { roof: roof.id, count }, Some(weights));
    }
    if !matches!(roof.frame, RoofFrame::Trusses { .. }) {
        trace.thrust = thrust(&psf, trace.span, rise_per_run);
    }
    trace
}

/// Thrust on each foot of eave: what the tie of one pair of rafters a foot wide carries, tied at the plate.
fn thrust(psf: &AreaLoads, span: Feet, rise_per_run: f64) -> LineLoads {
    let one_foot = Feet(1.0);
    psf.map(|psf| {
        let on_one: Pounds = psf * (span / 2.0) * one_foot;
        tie(on_one, span, span / 2.0 * rise_per_run, Feet::ZERO).unwrap_or_default() / one_foot
    })
}

fn psf_over(psf: &AreaLoads, area: f64) -> Weights {
    psf.map(|psf| Pounds(psf.0 * area))
}

/// Which roofs of a level cover a place.
pub(super) fn over(storey: &Storey<'_>, at: crate::plan::Point) -> Vec<RoofId> {
    let covers = |roof: &&Roof| {
        let polygons = storey.level.polygons(&roof.region);
        polygons.iter().any(|it| crate::geometry::position(it, at) != crate::geometry::Position::Outside)
    };
    storey.level.roofs.iter().filter(covers).map(|roof| roof.id).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Psf;

    /// Free body of one rafter of a pair, 24 ft wide, 6 in 12, 40 psf on plan, one foot of eave: rise 6 ft, vertical at
    /// the eave 480 lb, moment about the ridge 480 x 12 - 480 x 6 = 2,880 lb-ft, over the rise of 6 ft: 480 lb.
    #[test]
    fn a_24_ft_gable_of_6_in_12_under_40_psf_pushes_480_plf() {
        let psf = AreaLoads { roof_live: Psf(40.0), ..AreaLoads::default() };
        assert!((thrust(&psf, Feet(24.0), 0.5).roof_live.0 - 480.0).abs() < 1e-9);
    }
}
