//! Worked examples: the load on a girder, a prop line, a tie, a post, by hand and by the core.
//!
//! A figure agrees within half a unit of its last printed decimal; one printed whole, within 5e-6 of itself. An example
//! is known by what it gives and asks, not by its number, so that others of the same kind are checked as well.

use std::collections::BTreeMap;

use serde::Deserialize;
use serde_json::Value;

use super::Report;
use crate::footing::area;
use crate::members::joist::may_stand_off;
use crate::statics::{Contact, Load, Piece, pieces};
use crate::tape::inches;
use crate::thrust::{Lean, strut as strut_forces, tie};
use crate::units::{Feet, Inches, InchesToTheFourth, Plf, Pounds, Psf, Psi};

mod design;

const JOIST_BENDING: &str = "X26, bending: sqrt(8 x 975 x 1.2 x 1.15 x 13.14 / 53.33 plf) is 14.866 ft by the figures given; \
     printed 14.865, and nothing given leads there";
const JOIST_VIBRATION: &str =
    "X26, vibration: 53.33 plf at l/360 is 12.57 ft by the figures given; printed 12.5, cut short";

#[derive(Deserialize)]
struct File {
    examples: Vec<Example>,
}

#[derive(Deserialize)]
struct Example {
    id: String,
    topic: String,
    title: String,
    inputs: BTreeMap<String, Value>,
    #[serde(default)]
    steps: BTreeMap<String, Value>,
    answers: BTreeMap<String, Value>,
}

/// What the core makes of an example: figures by the names the answers and steps have.
type Figures = Vec<(&'static str, f64)>;

pub(super) fn check(text: &str) -> Report {
    let mut report = Report::default();
    match serde_json::from_str::<File>(text) {
        Ok(file) => file.examples.iter().for_each(|example| example.check(&mut report)),
        Err(error) => report.skip(&format!("the file could not be read: {error}"), 1),
    }
    report
}

impl Example {
    fn check(&self, report: &mut Report) {
        let figures = self.figures().unwrap_or_default();
        for (name, expected) in self.steps.iter().chain(&self.answers) {
            let got: Vec<f64> = figures.iter().filter(|(figure, _)| figure == name).map(|(_, got)| *got).collect();
            let label = || format!("{} {}: {name}", self.id, self.title);
            match (expected, got.as_slice()) {
                _ if self.is_amiss(name).is_some() => report.skip(self.is_amiss(name).unwrap_or_default(), 1),
                (Value::Bool(expected), [got]) => report.agree(label, *expected, *got > 0.5),
                (Value::Number(_), [got]) => near(report, label, expected, *got),
                (Value::Array(list), got) if list.len() == got.len() => {
                    list.iter().zip(got).for_each(|(expected, got)| near(report, label, expected, *got));
                }
                (Value::String(word), []) => match self.word(name) {
                    Some(got) => report.agree(label, true, got == word),
                    None => report.skip(self.why_not(name), 1),
                },
                _ => report.skip(self.why_not(name), 1),
            }
        }
    }

    /// Figures whose printed value does not follow from what the example gives.
    fn is_amiss(&self, name: &str) -> Option<&'static str> {
        match (self.topic.as_str(), name, self.given("S_in3")) {
            ("joist", "bending_ft", Some(s)) if (s - 13.14).abs() < 1e-9 => Some(JOIST_BENDING),
            ("joist", "vibration_ft", Some(s)) if (s - 13.14).abs() < 1e-9 => Some(JOIST_VIBRATION),
            _ => None,
        }
    }

    fn why_not(&self, name: &str) -> &'static str {
        match (self.topic.as_str(), name) {
            ("stacked wall" | "load path", "within_rule" | "offset_allowed_without_design") => {
                "whether a wall may stand off: the depth of the joists is not given"
            }
            _ => "no check fits the question",
        }
    }

    fn given(&self, name: &str) -> Option<f64> {
        self.inputs.get(name)?.as_f64()
    }

    fn figures(&self) -> Option<Figures> {
        match self.topic.as_str() {
            "tributary" => self.planks().or_else(|| self.girder()).or_else(|| self.halves()).or_else(|| self.wall()),
            "thrust" => self
                .heel_joint()
                .or_else(|| self.raised_tie())
                .or_else(|| self.tie_by_the_foot())
                .or_else(|| self.ridge_beam()),
            "column" => self.column(),
            "built-up column" => self.pack(),
            "bearing" => self.bearing_factor().or_else(|| self.bearing_length()),
            "joist" => self.joist_spans(),
            "notches" => self.hole(),
            "footing" => self
                .pier()
                .or_else(|| self.strip())
                .or_else(|| self.slab())
                .or_else(|| self.heavy_pad())
                .or_else(|| self.pad()),
            "loads" => self.spread(),
            "roof live" => self.roof_live(),
            "snow" => self.slope_factor().or_else(|| self.snow()),
            "combinations" => self.combination(),
            "shoring" => self.prop_line(),
            "stacked wall" => self.wall_off_its_support(),
            "cantilever" => self.cantilever(),
            "load path" => {
                self.ranch().or_else(|| self.two_storeys()).or_else(|| self.purlin()).or_else(|| self.offset_path())
            }
            _ => None,
        }
    }

    /// Two planks end to end on three men.
    fn planks(&self) -> Option<Figures> {
        let (first, second) = (self.given("span_1_ft")?, self.given("span_2_ft")?);
        let loads = [
            plf(0.0, first, self.given("load_1_lb")? / first),
            plf(first, first + second, self.given("load_2_lb")? / second),
        ];
        let [left, middle, right] = lapped(first, second, &loads)?;
        Some(vec![("outer_1_lb", left), ("centre_lb", middle), ("outer_2_lb", right)])
    }

    /// Joists lapped over a girder, by a strip one foot wide.
    fn girder(&self) -> Option<Figures> {
        let (left, right) = (self.given("joist_left_ft")?, self.given("joist_right_ft")?);
        let psf = Psf(self.given("total_psf")?);
        let [_, girder, _] = lapped(left, right, &[plf(0.0, left + right, (psf * Feet(1.0)).0)])?;
        Some(vec![("line_load_plf", girder), ("tributary_ft", girder / psf.0)])
    }

    fn halves(&self) -> Option<Figures> {
        let joist = self.given("joist_each_side_ft")?;
        let [_, girder, _] = lapped(joist, joist, &[plf(0.0, 2.0 * joist, self.given("psf")?)])?;
        let span = self.given("girder_span_ft")?;
        let [end, _] = simple(span, &[plf(0.0, span, girder)])?;
        let per_inch = girder / 12.0;
        Some(vec![("line_load_plf", girder), ("line_load_lb_per_in", per_inch), ("reaction_each_end_lb", end)])
    }

    fn wall(&self) -> Option<Figures> {
        let Plf(wall) = Psf(self.given("wall_psf")?) * Feet(self.given("wall_height_ft")?);
        Some(vec![("wall_plf", wall)])
    }

    fn raised_tie(&self) -> Option<Figures> {
        let (span, rise) = (Feet(self.given("span_ft")?), Feet(self.given("rise_ft")?));
        let on_one = Pounds(self.given("W_per_rafter_lb")?);
        let tie = |raised| tie(on_one, span, rise, Feet(raised)).map(|tie| tie.0);
        Some(vec![
            ("tie_at_plate_lb", tie(0.0)?),
            ("tie_raised_16in_lb", tie(16.0 / 12.0)?),
            ("tie_raised_4ft_lb", tie(4.0).unwrap_or(f64::NAN)),
        ])
    }

    fn tie_by_the_foot(&self) -> Option<Figures> {
        let (span, slope) = (self.given("span_ft")?, self.given("slope_in_12")?);
        let (psf, spacing) = (Psf(self.given("psf_plan")?), self.given("spacing_in")? / 12.0);
        let (run, rise) = (span / 2.0, span / 2.0 * slope / 12.0);
        let on_one = psf * Feet(spacing) * Feet(run);
        let tie = |raised| tie(on_one, Feet(span), Feet(rise), Feet(raised)).map(|tie| tie.0);
        let at_plate = tie(0.0)?;
        Some(vec![
            ("W_per_rafter_lb", on_one.0),
            ("rise_ft", rise),
            ("tie_lb", at_plate),
            ("tie_plf_of_wall", at_plate / spacing),
            ("tie_raised_third_lb", tie(rise / 3.0)?),
        ])
    }

    /// Two rafters that meet on a beam, by a strip one foot wide; what stands on two supports pushes nothing sideways.
    fn ridge_beam(&self) -> Option<Figures> {
        let (span, ridge_span) = (self.given("span_ft")?, self.given("ridge_span_ft")?);
        let [eave, ridge, _] = lapped(span / 2.0, span / 2.0, &[plf(0.0, span, self.given("psf_plan")?)])?;
        let [end, _] = simple(ridge_span, &[plf(0.0, ridge_span, ridge)])?;
        // Moments about the ridge of one rafter: what a tie would have to hold is what the eave does not.
        let load = self.given("psf_plan")? * span / 2.0;
        let thrust = eave * span / 2.0 - load * span / 4.0;
        Some(vec![("ridge_plf", ridge), ("ridge_reaction_lb", end), ("eave_plf_each", eave), ("thrust_lb", thrust)])
    }

    /// Joists that end on a wall, held by a line of props some way from it: the end past the props hangs over.
    fn prop_line(&self) -> Option<Figures> {
        let (span, offset, psf) = (self.given("span_ft")?, self.given("offset_ft")?, self.given("psf")?);
        let load = [plf(0.0, span, psf)];
        let joist = Piece::new(Feet(0.0), Feet(span), &[Feet(0.0), Feet(span - offset)]);
        let [far, prop] = reactions(&joist.settle(&load).ok()?, &load)?;
        let [_, half] = simple(span, &load)?;
        Some(vec![("prop_plf", prop), ("far_wall_plf", far), ("simple_half_plf", half), ("ratio", prop / half)])
    }

    fn wall_off_its_support(&self) -> Option<Figures> {
        let (span, offset) = (self.given("span_ft")?, self.given("offset_ft")?);
        let load = [Load::Point { at: Feet(offset), weight: Pounds(self.given("wall_plf")?) }];
        let joist = Piece::new(Feet(0.0), Feet(span), &[Feet(0.0), Feet(span)]);
        let contact = joist.settle(&load).ok()?;
        let [near, far] = reactions(&contact, &load)?;
        let moment = contact.response(&load, Psi(1.0), InchesToTheFourth(1.0)).overall.sagging.value.0;
        let moment = moment * self.given("spacing_in")? / 12.0;
        let depth = Inches(self.given("joist_depth_in")?);
        let may = f64::from(u8::from(may_stand_off(Feet(offset), depth.into())));
        Some(vec![
            ("near_support_plf", near),
            ("far_support_plf", far),
            ("moment_per_joist_lbft", moment),
            ("within_rule", may),
        ])
    }

    fn cantilever(&self) -> Option<Figures> {
        let (back, over) = (self.given("backspan_ft")?, self.given("overhang_ft")?);
        let joist = Piece::new(Feet(0.0), Feet(back + over), &[Feet(0.0), Feet(back)]).held()?;
        let tip = Load::Point { at: Feet(back + over), weight: Pounds(self.given("tip_lb")?) };
        let [inner, support] = reactions(&joist, &[plf(0.0, back + over, self.given("w_plf")?), tip])?;
        // The rule of these examples: 13.3 plf of dead load where nobody stands on the floor.
        let [dead, _] = reactions(&joist, &[plf(0.0, back + over, 13.3), tip])?;
        let lifts = if dead < 0.0 { 1.0 } else { 0.0 };
        Some(vec![
            ("inner_reaction_lb", inner),
            ("support_lb", support),
            ("inner_reaction_dead_only_lb", dead),
            ("uplift_dead_only", lifts),
        ])
    }

    /// Ceiling joists lapped over a middle wall; a beam over an opening in it on two posts.
    fn ranch(&self) -> Option<Figures> {
        let (half, opening) = (self.given("house_width_ft")? / 2.0, self.given("opening_ft")?);
        let over = |psf: f64| lapped(half, half, &[plf(0.0, 2.0 * half, psf)]).map(|[_, middle, _]| middle);
        let live = over(self.given("attic_live_psf")?)?;
        let dead = over(self.given("ceiling_dead_psf")?)? + self.given("beam_weight_plf")?;
        let beam = Piece::new(Feet(0.0), Feet(opening), &[Feet(0.0), Feet(opening)]).held()?;
        let [post_dead, _] = reactions(&beam, &[plf(0.0, opening, dead)])?;
        let [post_live, _] = reactions(&beam, &[plf(0.0, opening, live)])?;
        let all = [plf(0.0, opening, dead + live)];
        let moment = beam.response(&all, Psi(1.0), InchesToTheFourth(1.0)).overall.sagging.value.0;
        Some(vec![
            ("tributary_ft", live / self.given("attic_live_psf")?),
            ("live_plf", live),
            ("dead_plf", dead),
            ("beam_total_plf", dead + live),
            ("post_dead_lb", post_dead),
            ("post_live_lb", post_live),
            ("post_lb", post_dead + post_live),
            ("moment_lbft", moment),
            ("pad_area_ft2", area(Pounds(post_dead + post_live), Psf(self.given("soil_psf")?)).0),
        ])
    }

    /// Three decks lapped over walls in line, two walls between them, a girder below on posts.
    fn two_storeys(&self) -> Option<Figures> {
        let (half, bay) = (self.given("house_width_ft")? / 2.0, self.given("post_spacing_ft")?);
        let over = |psf: f64| lapped(half, half, &[plf(0.0, 2.0 * half, psf)]).map(|[_, middle, _]| middle);
        let Plf(walls) = Psf(self.given("wall_psf")?) * Feet(2.0 * self.given("wall_height_ft")?);
        let (upper, lower) = (over(self.given("floor2_live_psf")?)?, over(self.given("floor1_live_psf")?)?);
        let (floors, attic) = (upper + lower, over(self.given("attic_live_psf")?)?);
        let (attic_dead, floor_dead) = (over(self.given("attic_dead_psf")?)?, over(self.given("floor_dead_psf")?)?);
        let dead = attic_dead + 2.0 * floor_dead + walls;
        let girder = [plf(0.0, 2.0 * bay, dead + floors + attic)];
        let [_, post, _] = lapped(bay, bay, &girder)?;
        let through = Piece::new(Feet(0.0), Feet(2.0 * bay), &[Feet(0.0), Feet(bay), Feet(2.0 * bay)]);
        let [_, run_through, _] = reactions(&through.settle(&girder).ok()?, &girder)?;
        Some(vec![
            ("tributary_ft", over(1.0)?),
            ("attic", attic),
            ("attic", attic_dead),
            ("floor2", upper),
            ("floor2", floor_dead),
            ("floor1", lower),
            ("floor1", floor_dead),
            ("walls_plf", walls),
            ("dead_plf", dead),
            ("live_floor_plf", floors),
            ("live_attic_plf", attic),
            ("D_plus_L_plf", dead + floors + attic),
            ("inner_post_lb_simple", post),
            ("inner_post_lb_two_span_run_through", run_through),
            ("pad_ft2_simple", area(Pounds(post), Psf(self.given("soil_psf")?)).0),
        ])
    }

    /// A rafter over a purlin at mid-length, by a strip one foot wide; struts at even steps under the purlin.
    fn purlin(&self) -> Option<Figures> {
        let (half, step) = (self.given("rafter_plan_ft")? / 2.0, self.given("strut_spacing_ft")?);
        let rafter = [plf(0.0, 2.0 * half, self.given("snow_psf")? + self.given("dead_psf")?)];
        let [_, halves, _] = lapped(half, half, &rafter)?;
        let through = Piece::new(Feet(0.0), Feet(2.0 * half), &[Feet(0.0), Feet(half), Feet(2.0 * half)]);
        let [_, run_through, _] = reactions(&through.settle(&rafter).ok()?, &rafter)?;
        let strut = |purlin: f64| lapped(step, step, &[plf(0.0, 2.0 * step, purlin)]).map(|[_, middle, _]| middle);
        let vertical = strut(run_through)?;
        let (along, level) = strut_forces(Pounds(vertical), &lean(self.given("strut_angle_deg")?))?;
        Some(vec![
            ("purlin_plf_halves", halves),
            ("purlin_plf_run_through", run_through),
            ("strut_vertical_lb_halves", strut(halves)?),
            ("strut_vertical_lb_run_through", vertical),
            ("strut_axial_lb_run_through", along.0),
            ("strut_horizontal_lb_run_through", level.0),
        ])
    }

    /// A bearing wall that stands on joists some way from the wall below, on which they lap.
    fn offset_path(&self) -> Option<Figures> {
        let (offset, span, other) =
            (self.given("offset_ft")?, self.given("joist_span_ft")?, self.given("other_side_span_ft")?);
        let wall = [Load::Point { at: Feet(offset), weight: Pounds(self.given("wall_plf")?) }];
        let [near, far] = simple(span, &wall)?;
        let floor = [plf(0.0, other + span, self.given("floor_psf")?)];
        let [_, middle, outer] = lapped(other, span, &floor)?;
        let mut figures = vec![
            ("near_from_wall", near),
            ("far_from_wall", far),
            ("floor_half", outer),
            ("wall_below_plf", middle + near),
            ("outer_wall_plf", outer + far),
        ];
        // The depth stands in the title alone: "12 ft joists of 9 1/4 in".
        if let Some(depth) = self.title.rsplit_once("joists of ").and_then(|(_, depth)| inches(depth)) {
            let may = may_stand_off(Feet(offset), depth.feet());
            figures.push(("offset_allowed_without_design", f64::from(u8::from(may))));
        }
        Some(figures)
    }
}

/// A strut at this angle against the level.
fn lean(degrees: f64) -> Lean {
    #[expect(clippy::disallowed_methods, reason = "outside figures are checked on one machine and never in the page")]
    let rise = degrees.to_radians().tan();
    Lean { run: Feet(1.0), rise: Feet(rise) }
}

fn plf(from: f64, to: f64, plf: f64) -> Load {
    Load::uniform(Feet(from), Feet(to), Plf(plf))
}

/// Reactions in pounds, when there are as many as asked for.
fn reactions<const N: usize>(contact: &Contact, loads: &[Load]) -> Option<[f64; N]> {
    let all: Vec<f64> = contact.reactions(loads).iter().map(|reaction| reaction.0).collect();
    all.try_into().ok()
}

fn simple(span: f64, loads: &[Load]) -> Option<[f64; 2]> {
    let piece = Piece::new(Feet(0.0), Feet(span), &[Feet(0.0), Feet(span)]);
    reactions(&piece.settle(loads).ok()?, loads)
}

/// Two spans that lap over the middle support: what the three supports push.
fn lapped(left: f64, right: f64, loads: &[Load]) -> Option<[f64; 3]> {
    let seats = [Feet(0.0), Feet(left), Feet(left + right)];
    let cut = pieces(Feet(0.0), Feet(left + right), &seats, &[Feet(left)]);
    let [one, other] = cut.as_slice() else { return None };
    let [a, b] = reactions(&one.settle(loads).ok()?, loads)?;
    let [c, d] = reactions(&other.settle(loads).ok()?, loads)?;
    Some([a, b + c, d])
}

/// A number of the file against one of the core. Where nothing is expected, the core's may be what sums round.
fn near(report: &mut Report, label: impl FnOnce() -> String, expected: &Value, got: f64) {
    let expected = expected.as_f64().unwrap_or(f64::NAN);
    let size = if expected == 0.0 { 1.0 } else { expected.abs() };
    let tolerance = if expected == 0.0 { 1e-9 } else { last_place(expected) / size };
    report.compare(label, (expected, got), size, tolerance);
}

/// Half a unit of the last decimal a figure is printed with; a whole one is taken to be printed with six digits.
fn last_place(printed: f64) -> f64 {
    let text = format!("{printed}");
    let decimals = text.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    let whole = 5e-6 * printed.abs();
    // A hair more, for what the sum itself rounds.
    (0..decimals).fold(if decimals == 0 { whole } else { 0.5 }, |unit, _| unit / 10.0) * (1.0 + 1e-9)
}
