//! Worked examples: the load on a girder, a prop line, a tie, a post, by hand and by the core.
//!
//! A figure agrees within half a unit of its last printed decimal; one printed whole, within 5e-6 of itself. An example
//! is known by what it gives and asks, not by its number, so that others of the same kind are checked as well.

use std::collections::BTreeMap;

use serde::Deserialize;
use serde_json::Value;

use super::Report;
use crate::loads::{ByKind, Site, SnowEdition, heaviest};
use crate::statics::{Contact, Load, Piece, pieces};
use crate::thrust::tie;
use crate::units::{Feet, InchesToTheFourth, Plf, Pounds, Psf, Psi};

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
            let got = figures.iter().find(|(figure, _)| figure == name).map(|(_, got)| *got);
            let label = || format!("{} {}: {name}", self.id, self.title);
            match (expected, got) {
                (Value::Bool(expected), Some(got)) => report.agree(label, *expected, got > 0.5),
                (Value::Number(_), Some(got)) => {
                    let expected = expected.as_f64().unwrap_or(f64::NAN);
                    report.compare(label, (expected, got), expected, last_place(expected) / expected.abs());
                }
                _ => report.skip(self.why_not(name), 1),
            }
        }
    }

    fn why_not(&self, name: &str) -> &'static str {
        match (self.topic.as_str(), name) {
            ("footing", _) | (_, "pad_area_ft2" | "pad_ft2_simple") => "pads: not run through here",
            ("bearing", _) => "bearing length of a beam's end: not run through here",
            ("column" | "built-up column", _) => "columns: not run through here",
            ("joist" | "notches", _) => "size and notches of one joist: not run through here",
            ("roof live", _) => "roof live load is not reduced for area or slope: the heavier side",
            ("snow", _) => "snow is taken at 0.7 pg with Ce = Ct = Is = 1 and not reduced for slope: the heavier side",
            ("combinations", _) => "the core names the heaviest combination and its value, not the lighter ones",
            ("thrust", "nails_16d_common") => "heel-joint nails: a table of the code, not computed",
            ("thrust", "W_per_rafter_lb" | "rise_ft") => "a step that only prepares what the rule is given",
            (_, "within_rule" | "offset_allowed_without_design") => {
                "a rule on offsets, not a figure: traced as a caution"
            }
            (_, "strut_axial_lb_run_through" | "strut_horizontal_lb_run_through") => "slant of a strut: not traced",
            ("load path", _) => "a step in a form of its own; the answers that follow from it are compared",
            _ => "no check fits the question",
        }
    }

    fn given(&self, name: &str) -> Option<f64> {
        self.inputs.get(name)?.as_f64()
    }

    fn figures(&self) -> Option<Figures> {
        match self.topic.as_str() {
            "tributary" => self.planks().or_else(|| self.girder()).or_else(|| self.halves()).or_else(|| self.wall()),
            "thrust" => self.raised_tie().or_else(|| self.tie_by_the_foot()).or_else(|| self.ridge_beam()),
            "combinations" => self.combination(),
            "snow" => self.snow(),
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
        Some(vec![("ridge_plf", ridge), ("ridge_reaction_lb", end), ("eave_plf_each", eave)])
    }

    fn combination(&self) -> Option<Figures> {
        let loads = ByKind {
            dead: Plf(self.given("D")?),
            floor: Plf(self.given("L")?),
            attic: Plf::ZERO,
            roof_live: Plf(self.given("Lr")?),
            snow: Plf(self.given("S")?),
        };
        let (most, _) = heaviest(&loads, &Site { snow_edition: SnowEdition::UpTo2016, ..Site::default() });
        let governs = self.answers.get("governing")?.as_str()?;
        let names = ["D", "D_L", "D_Lr", "D_S", "D_75L_75Lr", "D_75L_75S"];
        Some(vec![(names.into_iter().find(|name| *name == governs)?, most.0)])
    }

    fn snow(&self) -> Option<Figures> {
        for factor in ["Ce", "Ct", "Is"] {
            if (self.given(factor)? - 1.0).abs() > 0.0 {
                return None;
            }
        }
        let site = Site { ground_snow: Some(Psf(self.given("pg_psf")?)), ..Site::default() };
        Some(vec![("pf_psf", site.roof_snow().0)])
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
        Some(vec![("near_support_plf", near), ("far_support_plf", far), ("moment_per_joist_lbft", moment)])
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
        ])
    }

    /// Three decks lapped over walls in line, two walls between them, a girder below on posts.
    fn two_storeys(&self) -> Option<Figures> {
        let (half, bay) = (self.given("house_width_ft")? / 2.0, self.given("post_spacing_ft")?);
        let over = |psf: f64| lapped(half, half, &[plf(0.0, 2.0 * half, psf)]).map(|[_, middle, _]| middle);
        let Plf(walls) = Psf(self.given("wall_psf")?) * Feet(2.0 * self.given("wall_height_ft")?);
        let floors = over(self.given("floor2_live_psf")?)? + over(self.given("floor1_live_psf")?)?;
        let attic = over(self.given("attic_live_psf")?)?;
        let dead = over(self.given("attic_dead_psf")?)? + 2.0 * over(self.given("floor_dead_psf")?)? + walls;
        let girder = [plf(0.0, 2.0 * bay, dead + floors + attic)];
        let [_, post, _] = lapped(bay, bay, &girder)?;
        let through = Piece::new(Feet(0.0), Feet(2.0 * bay), &[Feet(0.0), Feet(bay), Feet(2.0 * bay)]);
        let [_, run_through, _] = reactions(&through.settle(&girder).ok()?, &girder)?;
        Some(vec![
            ("tributary_ft", over(1.0)?),
            ("walls_plf", walls),
            ("dead_plf", dead),
            ("live_floor_plf", floors),
            ("live_attic_plf", attic),
            ("D_plus_L_plf", dead + floors + attic),
            ("inner_post_lb_simple", post),
            ("inner_post_lb_two_span_run_through", run_through),
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
        Some(vec![
            ("purlin_plf_halves", halves),
            ("purlin_plf_run_through", run_through),
            ("strut_vertical_lb_halves", strut(halves)?),
            ("strut_vertical_lb_run_through", strut(run_through)?),
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
        Some(vec![
            ("near_from_wall", near),
            ("far_from_wall", far),
            ("floor_half", outer),
            ("wall_below_plf", middle + near),
            ("outer_wall_plf", outer + far),
        ])
    }
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

/// Half a unit of the last decimal a figure is printed with; a whole one is taken to be printed with six digits.
fn last_place(printed: f64) -> f64 {
    let text = format!("{printed}");
    let decimals = text.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    let whole = 5e-6 * printed.abs();
    // A hair more, for what the sum itself rounds.
    (0..decimals).fold(if decimals == 0 { whole } else { 0.5 }, |unit, _| unit / 10.0) * (1.0 + 1e-9)
}
