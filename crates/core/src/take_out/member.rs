//! One piece of a joist or beam under every combination: what is asked of it, and whether its size may carry that.
//!
//! The solving knows no section: moments and shears come as they are, sags for an `E I` of one. Push-only supports for what
//! stands; a new beam that runs through is tied down at its posts, so that live load may be put on span by span.

use serde::Serialize;

use super::cut::{self, CutAt};
use crate::loads::{ByKind, Combination, Site};
use crate::members::joist::{span_in_bending, span_in_deflection, span_in_shear};
use crate::members::section::Section;
use crate::plan::{Cut, JoistField, Material, Member, Wood};
use crate::statics::{Contact, Load, Piece, StretchKind};
use crate::strength::adjust::{Adjusted, Conditions, lvl};
use crate::strength::check::{CREEP, CREEP_WET, Demand, Rule, SagLimits, wood as checks_of};
use crate::strength::engineered::{LVL, LVL_PLY};
use crate::strength::factors::Moisture;
use crate::strength::stability::Held;
use crate::strength::unstamped;
use crate::trace::load_within;
use crate::units::{Feet, FootPounds, Inches, InchesToTheFourth, Pounds, Psi};

/// Sags come for this E, in psi, and this I, in inches to the fourth.
const UNIT: (Psi, InchesToTheFourth) = (Psi(1e6), InchesToTheFourth(100.0));

/// One rule with its ratio, asked over allowed: over 1 it fails.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Ratio {
    /// Which.
    pub rule: Rule,
    /// Asked over allowed.
    pub ratio: f64,
    /// Under which loads together.
    pub under: Combination,
}

/// A member under every combination.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Checked {
    /// The span that sags most for its length.
    pub span: Feet,
    /// Greatest moment.
    pub moment: FootPounds,
    /// Greatest shear.
    pub shear: Pounds,
    /// Worst in bending.
    pub bending: Ratio,
    /// Worst in shear.
    pub shearing: Ratio,
    /// Worst sag under live load.
    pub live: Ratio,
    /// Worst sag under all load.
    pub total: Ratio,
    /// That sag under live load.
    pub live_sag: Inches,
    /// That sag under all load, dead load's creep left out as the span tables do.
    pub total_sag: Inches,
    /// The sag of what always lies on it.
    pub dead_sag: Inches,
    /// The worst sag once that has crept, [`CREEP`] times the dead load's, or [`CREEP_WET`] where wet (NDS 3.5.2, MEMORY). No limit
    /// counts it; that of steel is the same as at first.
    pub crept: Inches,
    /// 360 for `L / 360` under live load.
    pub live_limit: f64,
    /// The same under all load; 0 where none is asked for, as in the span tables of joists.
    pub total_limit: f64,
}

impl Checked {
    /// One piece under one combination: bending, shear, sag under live load and under all of it.
    pub(super) fn of(
        demand: &Demand,
        under: Combination,
        checks: [(Rule, f64); 4],
        (live_sag, total_sag): (Inches, Inches),
        limits: SagLimits,
    ) -> Self {
        let [bending, shearing, live, total] = checks.map(|(rule, ratio)| Ratio { rule, ratio, under });
        let (live_limit, total_limit) = (limits.live, limits.total);
        let Demand { span, moment, shear, .. } = *demand;
        let (dead_sag, crept) = (Inches::ZERO, total_sag);
        Self {
            span,
            moment,
            shear,
            bending,
            shearing,
            live,
            total,
            live_sag,
            total_sag,
            dead_sag,
            crept,
            live_limit,
            total_limit,
        }
    }

    /// The rule that governs.
    #[must_use]
    pub fn governing(&self) -> Ratio {
        let worse =
            |one: Ratio, other: Ratio| if other.ratio > one.ratio || other.ratio.is_nan() { other } else { one };
        [self.shearing, self.live, self.total].into_iter().fold(self.bending, worse)
    }

    /// Whether it passes all of them.
    #[must_use]
    pub fn passes(&self) -> bool {
        self.governing().ratio <= 1.0 + 1e-9
    }
}

/// Limits of joists in a floor: those of the code's own span tables, which ask nothing of the sag under all load.
pub(super) const FLOOR_JOISTS: SagLimits = SagLimits { total: 0.0, ..SagLimits::FLOOR };
/// The same in a ceiling that is not of plaster.
pub(super) const CEILING_JOISTS: SagLimits = SagLimits { total: 0.0, ..SagLimits::CEILING };

/// The same of rafters without a ceiling.
pub(super) const RAFTERS: SagLimits = SagLimits { total: 0.0, ..SagLimits::RAFTER };

/// Why there is no figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum NoFigure {
    /// Nobody saw the size.
    SizeNotSeen,
    /// An I-joist: its maker's tables decide.
    IJoist,
    /// Only its depth is known.
    WidthNotKnown,
    /// A rafter that meets a valley, a dormer or a change of slope, or that was not followed piece by piece.
    Rafter,
    /// A truss.
    Truss,
    /// A steel column.
    SteelColumn,
    /// A masonry pier.
    Pier,
    /// A notch or hole in what is not sawn: its maker's rules or a design say what is left.
    CutByMaker,
    /// A size, species or grade that the tables do not hold.
    OutsideTables,
    /// It has fewer than two supports, or tips.
    NoSeat,
}

/// What is asked under one combination.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Asked {
    pub(super) combination: Combination,
    pub(super) moment: FootPounds,
    pub(super) hogging: FootPounds,
    pub(super) shear: Pounds,
    live: Sag,
    total: Sag,
    /// The greatest at each support, least first: how hard it pushes and, under zero, pulls.
    pub(super) reactions: Vec<(Pounds, Pounds)>,
    /// Shear and moment at each place asked for.
    pub(super) at: Vec<(Pounds, FootPounds)>,
}

/// The sag that is worst for its span.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Sag {
    inches: Inches,
    span: Feet,
}

/// Whether the supports only push, or hold down as well with live load on any of the spans.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Bears {
    Pushing,
    TiedSpanBySpan,
}

pub(crate) type Loads = [(Load, ByKind<f64>)];

fn times(loads: &Loads, factors: &ByKind<f64>, spans: Option<&[(Feet, Feet)]>) -> Vec<Load> {
    let mut all = Vec::with_capacity(loads.len());
    for (load, times) in loads {
        let number = times.dead * factors.dead
            + times.floor * factors.floor
            + times.attic * factors.attic
            + times.roof_live * factors.roof_live
            + times.snow * factors.snow;
        if number.abs() < 1e-12 {
            continue;
        }
        match spans {
            None => all.push(scaled(load, number)),
            Some(spans) => {
                let within = spans.iter().filter_map(|(from, to)| load_within(load, from.0, to.0, false));
                all.extend(within.map(|load| scaled(&load, number)));
            }
        }
    }
    all
}

fn scaled(load: &Load, times: f64) -> Load {
    match *load {
        Load::Point { at, weight } => Load::Point { at, weight: weight * times },
        Load::Spread { from, to, start, end } => Load::Spread { from, to, start: start * times, end: end * times },
    }
}

fn worst_sag(contact: &Contact, loads: &[Load]) -> (crate::statics::Extremes, Sag) {
    let response = contact.response(loads, UNIT.0, UNIT.1);
    let mut worst = Sag { inches: Inches::ZERO, span: Feet(1.0) };
    for stretch in &response.stretches {
        let length = stretch.to - stretch.from;
        // An overhang is judged by twice its length.
        let span = if stretch.kind == StretchKind::Overhang { length * 2.0 } else { length };
        let down = stretch.extremes.down.value;
        if span.0 > 0.0 && (down / span.0 > worst.inches / worst.span.0 || worst.inches <= Inches::ZERO) {
            worst = Sag { inches: down, span };
        }
    }
    (response.overall, worst)
}

/// Every combination; none where the piece does not rest.
pub(super) fn asked(piece: &Piece, loads: &Loads, site: &Site, bears: Bears) -> Option<Vec<Asked>> {
    asked_at(piece, loads, site, bears, &[])
}

/// The same with shear and moment at some places of the piece, of live load on all spans.
fn asked_at(piece: &Piece, loads: &Loads, site: &Site, bears: Bears, places: &[Feet]) -> Option<Vec<Asked>> {
    let mut all = Vec::new();
    for combination in Combination::ALL {
        let factors = combination.factors(site);
        let live = ByKind { dead: 0.0, ..factors };
        let dead = ByKind { dead: factors.dead, ..ByKind::default() };
        let on = times(loads, &live, None);
        if combination != Combination::Dead && on.is_empty() {
            continue;
        }
        let dead = times(loads, &dead, None);
        let mut one: Option<Asked> = None;
        for pattern in patterns(piece, bears) {
            let live = match &pattern {
                None => on.clone(),
                Some(spans) => times(loads, &live, Some(spans)),
            };
            let both: Vec<Load> = dead.iter().chain(&live).copied().collect();
            let contact = match bears {
                Bears::Pushing => piece.settle(&both).ok()?,
                Bears::TiedSpanBySpan => piece.held()?,
            };
            let (extremes, total) = worst_sag(&contact, &both);
            let live = worst_sag(&contact, &live).1;
            let reactions = contact.reactions(&both);
            let at = places.iter().map(|place| cut::at(*place, piece.supports(), &reactions, &both)).collect();
            let reactions = reactions.into_iter().map(|it| (it, it)).collect();
            let here = Asked {
                combination,
                moment: extremes.sagging.value.max(-extremes.hogging.value),
                hogging: extremes.hogging.value.abs(),
                shear: extremes.shear.value.abs(),
                live,
                total,
                reactions,
                at,
            };
            one = Some(match one {
                None => here,
                Some(known) => heavier(known, here),
            });
        }
        all.extend(one);
    }
    Some(all)
}

fn heavier(one: Asked, other: Asked) -> Asked {
    let sag = |a: Sag, b: Sag| if b.inches / b.span.0 > a.inches / a.span.0 { b } else { a };
    let reactions = one.reactions.iter().zip(&other.reactions).map(|(a, b)| (a.0.min(b.0), a.1.max(b.1)));
    Asked {
        combination: one.combination,
        moment: one.moment.max(other.moment),
        hogging: one.hogging.max(other.hogging),
        shear: one.shear.max(other.shear),
        live: sag(one.live, other.live),
        total: sag(one.total, other.total),
        reactions: reactions.collect(),
        at: one.at,
    }
}

/// Which spans live load is on: all, and for a beam that runs through also each set that is worst somewhere: every other
/// span, and two neighbours with every other beyond.
fn patterns(piece: &Piece, bears: Bears) -> Vec<Option<Vec<(Feet, Feet)>>> {
    let mut all = vec![None];
    let spans: Vec<(Feet, Feet)> =
        piece.supports().windows(2).filter_map(|it| Some((*it.first()?, *it.get(1)?))).collect();
    let count = spans.len();
    if bears == Bears::Pushing || count < 2 {
        return all;
    }
    let mut sets: Vec<Vec<bool>> =
        vec![(0..count).map(|i| i % 2 == 0).collect(), (0..count).map(|i| i % 2 == 1).collect()];
    for middle in 1..count {
        let left = |i: usize| (middle - 1 - i).is_multiple_of(2);
        let right = |i: usize| (i - middle).is_multiple_of(2);
        sets.push((0..count).map(|i| if i < middle { left(i) } else { right(i) }).collect());
    }
    for set in sets {
        all.push(Some(spans.iter().zip(&set).filter(|it| *it.1).map(|it| *it.0).collect()));
    }
    all
}

impl Asked {
    /// As a check takes it, for this E and I.
    pub(super) fn demand(&self, e: Psi, i: InchesToTheFourth) -> (Demand, Inches, Inches) {
        let times = (UNIT.0.0 * UNIT.1.0) / (e.0 * i.0);
        let (live, total) = (self.live.inches * times, self.total.inches * times);
        let span = self.total.span;
        // Both are judged against one span: the other is brought to it in proportion.
        let live_sag = live * (span / self.live.span);
        (Demand { moment: self.moment, shear: self.shear, live_sag, total_sag: total, span }, live, total)
    }
}

/// A section with its values under each combination.
pub(super) fn checked(
    asked: &[Asked],
    section: &Section,
    limits: SagLimits,
    values: impl Fn(&Asked) -> Option<Adjusted>,
) -> Option<Checked> {
    let mut all: Option<Checked> = None;
    for one in asked {
        let values = values(one)?;
        let (demand, live_sag, total_sag) = one.demand(values.values.e, section.inertia());
        let found = checks_of(&demand, &[], section, &values, limits);
        let checks = [found.bending.both(), found.shear.both(), found.live_sag.both(), found.total_sag.both()];
        let here = Checked::of(&demand, one.combination, checks, (live_sag, total_sag), limits);
        let here = if one.combination == Combination::Dead { here.dead_alone() } else { here };
        all = Some(all.map_or(here, |known| known.or_worse(here)));
    }
    all.map(|it| it.creeping(CREEP))
}

impl Checked {
    fn dead_alone(self) -> Self {
        Self { dead_sag: self.total_sag, ..self }
    }

    /// With the dead load's sag this many times.
    fn creeping(self, times: f64) -> Self {
        Self { crept: self.total_sag + self.dead_sag * (times - 1.0), ..self }
    }

    pub(crate) fn or_worse(self, other: Self) -> Self {
        let worse =
            |one: Ratio, other: Ratio| if other.ratio > one.ratio || other.ratio.is_nan() { other } else { one };
        let total = if other.total.ratio > self.total.ratio { other } else { self };
        Self {
            span: total.span,
            moment: self.moment.max(other.moment),
            shear: self.shear.max(other.shear),
            bending: worse(self.bending, other.bending),
            shearing: worse(self.shearing, other.shearing),
            live: worse(self.live, other.live),
            total: worse(self.total, other.total),
            live_sag: self.live_sag.max(other.live_sag),
            total_sag: self.total_sag.max(other.total_sag),
            dead_sag: self.dead_sag.max(other.dead_sag),
            crept: self.crept.max(other.crept),
            live_limit: self.live_limit,
            total_limit: self.total_limit,
        }
    }
}

/// How a member that stands is built up, as far as a check of it needs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Standing {
    pub(crate) member: Member,
    /// Its own wood, never that of a new beam.
    pub(crate) wood: Wood,
    /// So many side by side that share the load, and how far apart.
    pub(crate) alike: (u32, Inches),
    pub(crate) limits: SagLimits,
}

impl Standing {
    /// Its section and its values under a combination.
    pub(super) fn section(&self) -> Result<Section, NoFigure> {
        match self.member.material {
            Material::NotSeen => Err(NoFigure::SizeNotSeen),
            Material::IJoist => Err(NoFigure::IJoist),
            Material::Glulam | Material::Steel => Err(NoFigure::WidthNotKnown),
            Material::Sawn => Section::of(self.member).ok_or(NoFigure::OutsideTables),
            Material::Lvl => {
                Ok(Section { width: LVL_PLY, depth: Inches(self.member.depth.inches()) }.plies(self.member.plies))
            }
        }
    }

    pub(super) fn values(&self, section: &Section, combination: Combination) -> Option<Adjusted> {
        let (alike, spacing) = self.alike;
        let conditions = Conditions { alike, spacing, ..Conditions::dry(combination, Held::AllAlong) };
        match self.member.material {
            Material::Sawn => unstamped::standing(&self.wood, self.member, &conditions),
            Material::Lvl => {
                let Wood { moisture, incising, .. } = self.wood;
                lvl(LVL.first()?, section, &Conditions { moisture, incising, ..conditions })
            }
            _ => None,
        }
    }

    /// Every check of a piece with these loads, uncut.
    pub(crate) fn check(&self, piece: &Piece, loads: &Loads, site: &Site) -> Result<Checked, NoFigure> {
        self.check_cut(piece, loads, site, &[])
    }

    /// The same of a piece with notches and holes: the net section at each counts as well.
    pub(crate) fn check_cut(
        &self,
        piece: &Piece,
        loads: &Loads,
        site: &Site,
        cuts: &[CutAt],
    ) -> Result<Checked, NoFigure> {
        let section = self.section()?;
        if !cuts.is_empty() && self.member.material != Material::Sawn {
            return Err(NoFigure::CutByMaker);
        }
        let length = piece.to();
        let of_each = cuts.iter().map(|it| (it.cut, it.places(piece.supports(), length)));
        let of_each: Vec<(Cut, Vec<Feet>)> = of_each.collect();
        let places: Vec<Feet> = of_each.iter().flat_map(|it| it.1.clone()).collect();
        let asked = asked_at(piece, loads, site, Bears::Pushing, &places).ok_or(NoFigure::NoSeat)?;
        let values = |one: &Asked| self.values(&section, one.combination);
        let whole = checked(&asked, &section, self.limits, values).ok_or(NoFigure::OutsideTables)?;
        let counts: Vec<(Cut, usize)> = of_each.iter().map(|(cut, places)| (*cut, places.len())).collect();
        let creep = if self.wood.moisture == Moisture::Wet { CREEP_WET } else { CREEP };
        let found = cut::with_cuts(whole, &counts, &asked, &section, values).map(|it| it.creeping(creep));
        found.ok_or(NoFigure::OutsideTables)
    }

    /// How far such a joist of a field reaches on two supports under the even load of its use, by every check: the shortest.
    pub(super) fn longest(&self, field: &JoistField) -> Option<Feet> {
        let section = self.section().ok()?;
        let spacing = field.spacing.feet();
        let (dead, live) = (field.weighs() * spacing, crate::loads::live(field.used_as).value * spacing);
        let mut shortest = Feet(f64::INFINITY);
        for (combination, load) in [(Combination::Dead, dead), (Combination::DeadLive, dead + live)] {
            let values = self.values(&section, combination)?.values;
            let bends = span_in_bending(values.fb, section.modulus(), load);
            let shears = span_in_shear(values.fv, section.area(), load);
            shortest = shortest.min(bends).min(shears);
            if combination == Combination::DeadLive {
                shortest = shortest.min(span_in_deflection(values.e, section.inertia(), live, self.limits.live));
            }
        }
        Some(shortest)
    }
}
