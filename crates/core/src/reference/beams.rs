//! Beams on two to six supports, against a solved state of each: reactions, moments, shears, deflections.
//!
//! Tolerance 1e-6: of the whole load for a reaction, of the greatest moment, shear or deflection of the state for those,
//! of the length for a place.

use super::Report;
use super::beam_file::{Case, File, Peak, State};
use crate::statics::{Contact, Extreme, Extremes, Load, Piece, Response, Shear, Side, StretchKind, TOUCH, pieces};
use crate::units::{Feet, InchesToTheFourth, Plf, Pounds, Psi};

const TOLERANCE: f64 = 1e-6;

const NOTHING_ON_IT: &str =
    "whether a piece that bears nothing touches its supports: it rests on all of them, unpressed";
const WHOLE_OVERHANG: &str =
    "half a span and the whole of an overhang: a rule of thumb that leaves out the lever of the overhang";
const CUT_SHORT: &str = "K25, moment in span 2: (35/60)^2/2 - 7/60 is 0.05347, which the table cuts to 0.0534";

pub(super) fn check(text: &str) -> Report {
    let mut report = Report::default();
    match serde_json::from_str::<File>(text) {
        Ok(file) => file.cases.iter().for_each(|case| case.check(&mut report)),
        Err(error) => report.skip(&format!("the file could not be read: {error}"), 1),
    }
    report
}

/// One piece in the state asked for.
struct Solved {
    piece: Piece,
    contact: Contact,
    reactions: Vec<Pounds>,
    response: Response,
}

impl Case {
    fn loads(&self) -> Vec<Load> {
        let spread = self.uniform.iter().map(|u| Load::Spread {
            from: Feet(u.from_ft),
            to: Feet(u.to_ft),
            start: Plf(u.plf),
            end: Plf(u.plf_end.unwrap_or(u.plf)),
        });
        let points = self.point.iter().map(|p| Load::Point { at: Feet(p.x_ft), weight: Pounds(p.lb) });
        spread.chain(points).collect()
    }

    fn solve(&self, contact: impl Fn(&Piece, &[Load]) -> Option<Contact>) -> Option<Vec<Solved>> {
        self.solve_cut_at(&self.breaks_ft, contact)
    }

    /// Every piece between laps solved; `None` when one of them has no balance.
    fn solve_cut_at(&self, laps: &[f64], contact: impl Fn(&Piece, &[Load]) -> Option<Contact>) -> Option<Vec<Solved>> {
        let loads = self.loads();
        let supports: Vec<Feet> = self.supports_ft.iter().copied().map(Feet).collect();
        let breaks: Vec<Feet> = laps.iter().copied().map(Feet).collect();
        let cut = pieces(Feet::ZERO, Feet(self.length_ft), &supports, &breaks);
        let solved = cut.into_iter().map(|piece| {
            let contact = contact(&piece, &loads)?;
            let reactions = contact.reactions(&loads);
            let response = contact.response(&loads, Psi(self.e), InchesToTheFourth(self.i));
            Some(Solved { piece, contact, reactions, response })
        });
        solved.collect()
    }

    fn check(&self, report: &mut Report) {
        if !self.fixed_ends.is_empty() {
            report.skip("a beam with a built-in end: house framing has none, so it is not modelled", 1);
            return;
        }
        for state in [Some(&self.expect), self.library.as_ref()].into_iter().flatten() {
            let id = &self.id;
            if let Some(total) = state.total_load_lb {
                let got: Pounds = self.loads().iter().map(Load::total).sum();
                report.compare(|| format!("{id}: total load, lb"), (total, got.0), total, TOLERANCE);
            }
            let held = self.solve(|piece, _| piece.held());
            for expected in [state.two_way.as_deref(), Some(state)].into_iter().flatten() {
                self.check_state(report, "held both ways", expected, held.as_deref());
            }
            if let Some(expected) = state.push_only.as_deref() {
                let settled = self.solve(|piece, loads| piece.settle(loads).ok());
                let stable = expected.stable.unwrap_or(true);
                report.agree(|| format!("{id}: stands"), stable, settled.is_some());
                if stable {
                    self.check_state(report, "push only", expected, settled.as_deref());
                }
            } else if state.two_way.is_some() {
                // No state of its own: nothing pulls, so supports that only push give the same.
                let settled = self.solve(|piece, loads| piece.settle(loads).ok());
                let expected = state.two_way.as_deref().unwrap_or(state);
                self.check_state(report, "push only, nothing pulls", expected, settled.as_deref());
            }
            self.check_halves(report, &state.simple_tributary_ft);
        }
    }

    /// Half of each span to each support is what joists cut over every inner support do.
    fn check_halves(&self, report: &mut Report, halves: &[f64]) {
        let (Some(load), [first, inner @ .., last]) = (self.uniform.first(), self.supports_ft.as_slice()) else {
            return;
        };
        if !near(*first, 0.0) || !near(*last, self.length_ft) {
            report.skip(WHOLE_OVERHANG, halves.len());
            return;
        }
        let lapped = self.solve_cut_at(inner, |piece, loads| piece.settle(loads).ok()).unwrap_or_default();
        for (at, half) in self.supports_ft.iter().zip(halves) {
            let got = lapped.iter().map(|one| one.reaction_at(*at)).sum::<f64>() / load.plf;
            let label = || format!("{}, lapped over every support: width that leans on {at} ft, ft", self.id);
            report.compare(label, (*half, got), self.length_ft, TOLERANCE);
        }
    }

    fn check_state(&self, report: &mut Report, way: &str, expected: &State, solved: Option<&[Solved]>) {
        let label = |what: &str| format!("{}, {way}: {what}", self.id);
        let Some(solved) = solved else {
            report.agree(|| label("has a balance"), true, false);
            return;
        };
        let loads = self.loads();
        let total: f64 = loads.iter().map(|load| load.total().abs().0).sum();

        for (at, reaction) in self.supports_ft.iter().zip(&expected.reactions_lb) {
            let got = solved.iter().map(|one| one.reaction_at(*at)).sum();
            report.compare(|| label(&format!("reaction at {at} ft, lb")), (*reaction, got), total, TOLERANCE);
        }
        // Over a lap it is enough that one of the pieces has lost contact.
        for at in expected.lifted_supports_ft.iter().flat_map(|_| &self.supports_ft) {
            let lifted = expected.lifted_supports_ft.iter().flatten().any(|place| near(*place, *at));
            let got = solved.iter().any(|one| one.lifted_at(*at));
            if !got && solved.iter().any(|one| one.index_at(*at).is_some() && one.bears_nothing(&loads)) {
                report.skip(NOTHING_ON_IT, 1);
            } else {
                report.agree(|| label(&format!("lifted at {at} ft")), lifted, got);
            }
        }
        if !expected.pieces.is_empty() {
            report.agree(|| label("as many pieces"), true, expected.pieces.len() == solved.len());
        }
        for (piece, one) in expected.pieces.iter().zip(solved) {
            let place = format!("piece from {} to {} ft", piece.from_ft, piece.to_ft);
            let ends = near(piece.from_ft, one.piece.from().0) && near(piece.to_ft, one.piece.to().0);
            report.agree(|| label(&place), true, ends);
            for (at, reaction) in piece.supports_ft.iter().zip(&piece.reactions_lb) {
                let got = one.reaction_at(*at);
                let name = || label(&format!("{place}, reaction at {at} ft, lb"));
                report.compare(name, (*reaction, got), total, TOLERANCE);
                let Some(lifted) = &piece.lifted_supports_ft else { continue };
                if one.bears_nothing(&loads) {
                    report.skip(NOTHING_ON_IT, 1);
                } else {
                    let lifted = lifted.iter().any(|place| near(*place, *at));
                    report.agree(|| label(&format!("{place}, lifted at {at} ft")), lifted, one.lifted_at(*at));
                }
            }
        }
        self.check_peaks(report, way, expected, solved);
        self.check_factors(report, way, expected, solved);
        if let Some(load) = self.uniform.first() {
            for (at, width) in self.supports_ft.iter().zip(&expected.effective_width_ft) {
                let got = solved.iter().map(|one| one.reaction_at(*at)).sum::<f64>() / load.plf;
                let name = || label(&format!("width that leans on {at} ft, ft"));
                report.compare(name, (*width, got), self.length_ft, TOLERANCE);
            }
        }
    }

    fn check_peaks(&self, report: &mut Report, way: &str, expected: &State, solved: &[Solved]) {
        let label = |what: &str| format!("{}, {way}: {what}", self.id);
        let overall = || solved.iter().map(|one| one.response.overall);
        let bending = greatest([&expected.moment_max_lbft, &expected.moment_min_lbft]);
        let moving = greatest([&expected.deflection_down_max_in, &expected.deflection_up_max_in]);
        let sagging = first_greatest(overall().map(|all| placed(all.sagging, all.sagging.value.0)));
        let hogging = first_greatest(overall().map(|all| placed(all.hogging, -all.hogging.value.0)));
        let down = first_greatest(overall().map(|all| placed(all.down, all.down.value.0)));
        let up = first_greatest(overall().map(|all| placed(all.up, all.up.value.0)));
        for (what, peak, (got, at), sign, scale) in [
            ("greatest sagging moment, lb-ft", &expected.moment_max_lbft, sagging, 1.0, bending),
            ("greatest hogging moment, lb-ft", &expected.moment_min_lbft, hogging, -1.0, bending),
            ("greatest sinking, in", &expected.deflection_down_max_in, down, 1.0, moving),
            ("greatest rising, in", &expected.deflection_up_max_in, up, 1.0, moving),
        ] {
            let Some(peak) = peak else { continue };
            report.compare(|| label(what), (peak.value(), sign * got), scale, TOLERANCE);
            if let Some(x) = peak.place() {
                let name = || label(&format!("{what}: its place, ft"));
                report.compare(name, (x, at), self.length_ft, TOLERANCE);
            }
        }
        if let Some(peak) = &expected.shear_abs_max_lb {
            let mut shear = Shear::default();
            for all in overall() {
                shear = if all.shear.value > shear.value { all.shear } else { shear };
            }
            report.compare(|| label("greatest shear, lb"), (peak.value(), shear.value.0), peak.value(), TOLERANCE);
            if let Some(x) = peak.place() {
                let name = || label("greatest shear: its place, ft");
                report.compare(name, (x, shear.at.0), self.length_ft, TOLERANCE);
            }
            if let Peak::Placed { x_unique: true, side: Some(side), .. } = peak {
                report.agree(|| label("greatest shear: on the right"), side == "right", shear.side == Side::Right);
            }
        }
        let stretches: Vec<_> = solved.iter().flat_map(|one| &one.response.stretches).collect();
        if !expected.spans.is_empty() {
            report.agree(|| label("as many spans and overhangs"), true, expected.spans.len() == stretches.len());
        }
        for (span, got) in expected.spans.iter().zip(stretches) {
            let place = format!("{} from {} to {} ft", span.kind, span.from_ft, span.to_ft);
            let kind = if got.kind == StretchKind::Span { "span" } else { "overhang" };
            let same = kind == span.kind && near(span.from_ft, got.from.0) && near(span.to_ft, got.to.0);
            report.agree(|| label(&place), true, same);
            let Extremes { sagging, hogging, down, up, .. } = got.extremes;
            for (what, expected, got, scale) in [
                ("sagging moment, lb-ft", span.moment_max_lbft, sagging.value.0, bending),
                ("hogging moment, lb-ft", span.moment_min_lbft, hogging.value.0, bending),
                ("sinking, in", span.deflection_down_max_in, down.value.0, moving),
                ("rising, in", span.deflection_up_max_in, up.value.0, moving),
            ] {
                report.compare(|| label(&format!("{place}, {what}")), (expected, got), scale, TOLERANCE);
            }
        }
    }

    /// Equal spans and one line load: the factors the tables print.
    fn check_factors(&self, report: &mut Report, way: &str, expected: &State, solved: &[Solved]) {
        let label = |what: &str| format!("{}, {way}: {what}", self.id);
        let (Some(load), Some(one)) = (self.uniform.first(), solved.first()) else { return };
        let span = self.supports_ft.get(1).map_or(self.length_ft, |second| *second);
        let (force, moment) = (load.plf * span, load.plf * span * span);
        let moments = one.contact.support_moments(&self.loads());
        for ((text, got), at) in expected.reactions_over_wl.iter().zip(&one.reactions).zip(&self.supports_ft) {
            let name = || label(&format!("reaction at {at} ft over wL"));
            report.compare(name, (fraction(text), got.0 / force), 1.0, TOLERANCE);
        }
        for ((text, got), at) in expected.support_moments_over_wl2.iter().zip(&moments).zip(&self.supports_ft) {
            let name = || label(&format!("moment over {at} ft over wL^2"));
            report.compare(name, (fraction(text), got.0 / moment), 1.0, TOLERANCE);
        }
        let Some(table) = &expected.published_rounded else { return };
        report.skip(CUT_SHORT, 1);
        for ((printed, got), at) in table.reactions_over_wl.iter().zip(&one.reactions).zip(&self.supports_ft) {
            let name = || label(&format!("reaction at {at} ft over wL, as printed"));
            report.compare(name, (*printed, got.0 / force), 1.0, 0.0005);
        }
        let first = one.response.stretches.first().map(|stretch| stretch.extremes.sagging.value.0);
        let sinks = one.response.overall.down;
        let deflection = sinks.value.0 * self.e * self.i / (1728.0 * moment * span * span);
        for (what, printed, got, half_a_unit) in [
            ("moment in span 1 over wL^2", table.moment_span1, first.map(|m| m / moment), 0.00005),
            ("moment over R3 over wL^2", table.support_moment_r3, moments.get(2).map(|m| m.0 / moment), 0.00005),
            ("deflection over wL^4/EI", table.deflection, Some(deflection), 0.00005),
            ("its place over L", table.at, Some(sinks.at.0 / span), 0.005),
        ] {
            let name = || label(&format!("{what}, as printed"));
            report.compare(name, (printed, got.unwrap_or(f64::NAN)), 1.0, half_a_unit);
        }
    }
}

impl Solved {
    fn index_at(&self, place: f64) -> Option<usize> {
        self.piece.supports().iter().position(|at| near(at.0, place))
    }

    fn reaction_at(&self, place: f64) -> f64 {
        self.index_at(place).and_then(|index| self.reactions.get(index)).map_or(0.0, |reaction| reaction.0)
    }

    fn lifted_at(&self, place: f64) -> bool {
        self.index_at(place).is_some_and(|index| self.contact.lifted().any(|lifted| lifted == index))
    }

    fn bears_nothing(&self, loads: &[Load]) -> bool {
        let idle = |load: &Load| {
            let one = std::slice::from_ref(load);
            self.contact.reactions(one).iter().all(|reaction| reaction.abs().0 <= 0.0)
        };
        loads.iter().all(idle)
    }
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= TOUCH.0
}

fn greatest<const N: usize>(peaks: [&Option<Peak>; N]) -> f64 {
    peaks.into_iter().flatten().fold(0.0, |most, peak| most.max(peak.value().abs()))
}

fn placed<T>(extreme: Extreme<T>, value: f64) -> (f64, f64) {
    (value, extreme.at.0)
}

fn first_greatest(all: impl Iterator<Item = (f64, f64)>) -> (f64, f64) {
    all.fold((0.0, 0.0), |most, one| if one.0 > most.0 { one } else { most })
}

/// `-1/10`, `2/5`, `0`; anything else is no number, and so disagrees.
fn fraction(text: &str) -> f64 {
    let (over, under) = text.split_once('/').unwrap_or((text, "1"));
    match (over.parse::<f64>(), under.parse::<f64>()) {
        (Ok(over), Ok(under)) => over / under,
        _ => f64::NAN,
    }
}
