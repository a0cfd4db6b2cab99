//! Beams that could take over, side by side: built-up lumber, laminated veneer, glulam, steel.
//!
//! Loads by kind come from the trace of the proposed house; each beam's own weight is added to them. Every combination with
//! its CD, live load on and off span by span where the beam runs through over posts. Only those that pass are named.

use serde::Serialize;

use super::case::Case;
use super::joint::Apart;
use super::loses::bar;
use super::member::{Asked, Bears, Checked, Ratio, asked, checked};
use super::plans::Proposed;
use super::{Refusal, Stock};
use crate::card::Figure;
use crate::geometry::Frame;
use crate::loads::{ByKind, Combination, Mark, Site, Sourced, Weights, heaviest};
use crate::members::bearing::{jacks, length_needed};
use crate::members::section::Section;
use crate::order::InOrder as _;
use crate::plan::{Member, Set};
use crate::statics::{Load, Piece};
use crate::strength::adjust::{Bends, Conditions, glulam, lvl, sawn};
use crate::strength::check::SagLimits;
use crate::strength::engineered::{GLULAM, GLULAM_WIDTHS, LAMINATION, LVL, LVL_DEPTHS, LVL_PLY};
use crate::strength::lumber::lumber;
use crate::strength::stability::Held;
use crate::strength::steel::{A992, SHAPES, Shape, steel};
use crate::trace::{BeamTrace, Carried, LinePart, Node, PointLoad, Trace};
use crate::units::{Feet, FootPounds, Inches, Pcf, Plf, Pounds, Psi};

/// No beam is named for a span over this (common practice: past it a beam is designed).
pub const LONGEST: Feet = Feet(30.0);
/// Lumber longer than this is seldom in stock (common practice).
const LONGEST_SAWN: Feet = Feet(20.0);
/// No seat is taken longer than this: four studs.
const LONGEST_SEAT: Inches = Inches(6.0);
/// A place this near to a line is on it.
const HAIR: Feet = Feet(0.02);
/// One stud.
const STUD: Inches = Inches(1.5);
/// So much one person may lift.
pub const LIFT: Sourced<Pounds> =
    Sourced { value: Pounds(51.0), source: "NIOSH lifting equation (1994), load constant", mark: Mark::Memory };
/// More than so many do not carry one beam in a room (common practice).
pub const CARRIERS: u32 = 4;

/// A cubic foot of wood.
const fn wood(pcf: f64, source: &'static str) -> Sourced<Pcf> {
    Sourced { value: Pcf(pcf), source, mark: Mark::Memory }
}
/// Heavier than dry wood of any of the four species groups.
const SAWN: Sourced<Pcf> = wood(37.0, "NDS Supplement 3.1.3, southern pine at 15 % moisture");
const VENEER: Sourced<Pcf> = wood(42.0, "range of evaluation reports");
const LAMINATED: Sourced<Pcf> = wood(36.0, "glulam, usual figure");

/// A family of beams.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Family {
    /// Sawn lumber, two to four plies.
    BuiltUp,
    /// Laminated veneer.
    Veneer,
    /// Glulam.
    Glulam,
    /// Steel W shapes.
    Steel,
}

impl Family {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::BuiltUp, Self::Veneer, Self::Glulam, Self::Steel];
}

/// Why a family has no beam here.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum NoBeam {
    /// None of its sizes in the tables carries it.
    NoneCarries,
    /// Longer than it is sold.
    NotSoLong,
    /// A span over [`LONGEST`].
    SpanTooLong,
    /// Something in this study blocks every size.
    Refused,
}

/// What a beam is made of.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Made {
    Sawn(Member),
    Lvl(u8, Inches),
    Glulam(Inches, Inches),
    Steel(Shape),
}

/// One beam that passes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Choice {
    /// Of which family.
    pub family: Family,
    /// "3-2x12 spruce-pine-fir No. 2".
    pub name: String,
    /// Side to side, all plies.
    pub width: Inches,
    /// Top to bottom.
    pub depth: Inches,
    /// How many plies.
    pub plies: u8,
    /// Its own weight.
    pub own: Plf,
    /// All of it.
    pub weight: Pounds,
    /// The heaviest piece that has to be lifted: one ply, or all of it.
    pub piece: Pounds,
    /// So many people lift that piece; none where it takes more than [`CARRIERS`].
    pub people: Option<u32>,
    /// Every check.
    pub checked: Checked,
    /// What governs.
    pub governs: Ratio,
    /// Live sag as a part of the span: 480 for `L / 480`.
    pub live_part: f64,
    /// Total sag likewise.
    pub total_part: f64,
    /// How far it hangs below the joists; none where nobody saw how deep they are.
    pub drops: Option<Inches>,
    /// The longest seat that it needs, on wood of the species asked.
    pub seat: Option<Inches>,
    /// So many studs under that seat.
    pub studs: Option<u32>,
    /// Whether it is the lightest of all.
    pub lightest: bool,
    /// Whether it is the shallowest of all.
    pub shallowest: bool,
    /// In a sentence.
    pub sentence: String,
    /// The figures.
    pub figures: Vec<Figure>,
}

/// A support of the beam with what comes down on it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Support {
    /// From the end of the beam nearer to end `a` of the wall.
    pub at: Feet,
    /// By kind, all loads on; the beam's own weight not in it.
    pub weights: Weights,
    /// The same with the own weight of the lightest choice.
    pub with_beam: Weights,
    /// The heaviest combination of these, live load on the worst spans.
    pub most: Pounds,
    /// Which it is.
    pub under: Combination,
    /// How hard it pulls up at the worst, under zero if at all.
    pub least: Pounds,
    /// What is there.
    pub on: Node,
    /// What else comes to it: the rest of an old beam, for one.
    pub besides: Weights,
    /// The heaviest combination of all of it, and which it is.
    pub whole: (Pounds, Combination),
}

impl Support {
    /// What it is asked to carry by kind: with the beam, each kind as much more as live load on the worst spans makes of all.
    pub(super) fn asked(&self, site: &Site) -> Weights {
        let all = heaviest(&self.with_beam, site).0;
        let more = if all > Pounds::ZERO { self.most / all } else { 1.0 };
        self.with_beam * more.max(1.0)
    }
}

/// The beams.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Beams {
    /// Line load on the beam, from its end nearer to end `a` of the wall.
    pub line: Vec<LinePart>,
    /// Point loads on it.
    pub points: Vec<PointLoad>,
    /// All of it.
    pub all: Weights,
    /// Its spans.
    pub spans: Vec<Feet>,
    /// How far apart its pressed edge is taken to be held sideways.
    pub held: Inches,
    /// Where it takes the place of an old beam: how many times that one's greatest moment it has to carry.
    pub times: Option<f64>,
    /// Those that pass, lightest first: of each family the lightest three and the shallowest two.
    pub choices: Vec<Choice>,
    /// Families without one, and why.
    pub none: Vec<(Family, NoBeam)>,
    /// The supports.
    pub supports: Vec<Support>,
    /// What else the beam as drawn would press on, which no size here counts on.
    pub leans_on: Vec<(Node, Weights)>,
    /// How plies are joined.
    pub plies: String,
    /// The figures.
    pub figures: Vec<Figure>,
}

/// What the beam has to carry, and on what.
pub(super) struct Task {
    pub(super) piece: Piece,
    pub(super) loads: Vec<(Load, ByKind<f64>)>,
    limits: SagLimits,
    held: Held,
    longest: Feet,
    stock: Stock,
    /// What comes to each support besides the beam.
    seats: Vec<(Node, Feet, Weights)>,
}

impl Task {
    pub(super) fn of(case: &Case<'_>, beam: &BeamTrace, after: &Trace, proposed: &Proposed) -> Self {
        let seats = proposed.besides(after);
        let supports: &[Feet] = &seats.iter().map(|it| it.1).collect::<Vec<_>>();
        let mut loads: Vec<(Load, ByKind<f64>)> = Vec::with_capacity(beam.line.len() + beam.points.len());
        for part in &beam.line {
            let shape = Load::uniform(part.start, part.end, Plf(1.0));
            loads.push((shape, part.loads.map(f64::from)));
        }
        for point in &beam.points {
            let shape = Load::Point { at: point.at, weight: Pounds(1.0) };
            loads.push((shape, point.weights.map(f64::from)));
        }
        let longest = supports.windows(2).filter_map(|it| Some(*it.get(1)? - *it.first()?)).fold(Feet::ZERO, Feet::max);
        let floors = beam.top.floor.0 > 0.0;
        // Joists fastened to it hold its upper edge; over a post the lower edge is pressed, and nothing holds that.
        let joists = beam.feeds.iter().any(|feed| matches!(feed.from, Node::Field(_)));
        let held =
            if joists && supports.len() < 3 { Held::Every(Inches(24.0)) } else { Held::Every(Inches::from(longest)) };
        Self {
            piece: Piece::new(Feet::ZERO, beam.length, supports),
            loads,
            limits: if floors { SagLimits::FLOOR } else { SagLimits::CEILING },
            held,
            longest,
            stock: case.stretch.lumber,
            seats,
        }
    }

    fn with(&self, own: Plf) -> Vec<(Load, ByKind<f64>)> {
        let mut loads = self.loads.clone();
        let all = Load::uniform(Feet::ZERO, self.piece.to(), Plf(1.0));
        loads.push((all, ByKind { dead: own.0, ..ByKind::default() }));
        loads
    }

    fn runs_through(&self) -> bool {
        self.piece.supports().len() > 2
    }
}

impl Made {
    fn all(family: Family) -> Vec<Self> {
        match family {
            Family::BuiltUp => (2..=4)
                .flat_map(|plies| [6, 8, 10, 12].map(|depth| Self::Sawn(Member::plies(plies, 2, depth))))
                .collect(),
            Family::Veneer => (2..=4).flat_map(|plies| LVL_DEPTHS.map(|depth| Self::Lvl(plies, depth))).collect(),
            Family::Glulam => GLULAM_WIDTHS
                .into_iter()
                .flat_map(|width| (6_u8..=16).map(move |count| Self::Glulam(width, LAMINATION * f64::from(count))))
                .collect(),
            Family::Steel => SHAPES.map(Self::Steel).to_vec(),
        }
    }

    fn family(&self) -> Family {
        match self {
            Self::Sawn(_) => Family::BuiltUp,
            Self::Lvl(..) => Family::Veneer,
            Self::Glulam(..) => Family::Glulam,
            Self::Steel(_) => Family::Steel,
        }
    }

    fn section(&self) -> Section {
        match *self {
            Self::Sawn(member) => Section::of(member).unwrap_or(Section { width: Inches::ZERO, depth: Inches::ZERO }),
            Self::Lvl(plies, depth) => Section { width: LVL_PLY, depth }.plies(plies),
            Self::Glulam(width, depth) => Section { width, depth },
            Self::Steel(shape) => Section { width: shape.flange_width, depth: shape.depth },
        }
    }

    fn plies(&self) -> u8 {
        match *self {
            Self::Sawn(member) => member.plies,
            Self::Lvl(plies, _) => plies,
            Self::Glulam(..) | Self::Steel(_) => 1,
        }
    }

    fn density(&self) -> Option<Sourced<Pcf>> {
        match self {
            Self::Sawn(_) => Some(SAWN),
            Self::Lvl(..) => Some(VENEER),
            Self::Glulam(..) => Some(LAMINATED),
            Self::Steel(_) => None,
        }
    }

    fn own(&self) -> Plf {
        match (self, self.density()) {
            (Self::Steel(shape), _) => shape.weight,
            (_, Some(density)) => {
                let Section { width, depth } = self.section();
                density.value * Feet::from(width) * Feet::from(depth)
            }
            (_, None) => Plf::ZERO,
        }
    }

    /// Across the grain: what its own seat may be pressed by.
    fn across(&self, stock: Stock) -> Option<Psi> {
        match self {
            Self::Sawn(member) => lumber(stock.species, stock.grade, *member).map(|row| row.values.fc_perp),
            Self::Lvl(..) => LVL.first().map(|class| class.fc_perp.low),
            Self::Glulam(..) => GLULAM.first().map(|class| class.fc_perp),
            Self::Steel(_) => None,
        }
    }

    fn check(&self, task: &Task, asked: &[Asked]) -> Option<Checked> {
        let section = self.section();
        let dry = |one: &Asked| Conditions::dry(one.combination, task.held);
        match self {
            Self::Sawn(member) => {
                let row = lumber(task.stock.species, task.stock.grade, *member)?;
                checked(asked, &section, task.limits, |one| sawn(&row, *member, &dry(one)))
            }
            Self::Lvl(..) => {
                let class = LVL.first()?;
                checked(asked, &section, task.limits, |one| lvl(class, &section, &dry(one)))
            }
            Self::Glulam(..) => {
                let class = GLULAM.first()?;
                let bends = if task.runs_through() { Bends::Hogging } else { Bends::Sagging };
                checked(asked, &section, task.limits, |one| glulam(class, &section, task.longest, bends, &dry(one)))
            }
            Self::Steel(shape) => {
                let mut all: Option<Checked> = None;
                for one in asked {
                    let (demand, live_sag, total_sag) = one.demand(A992.e, shape.ix);
                    let found = steel(&demand, shape, &A992, task.held, task.limits)?;
                    let [live, total] = [found.live_sag.both(), found.total_sag.both()];
                    let checks = [found.bending.both(), found.shear.both(), live, total];
                    let here = Checked::of(&demand, one.combination, checks, (live_sag, total_sag), task.limits);
                    all = Some(all.map_or(here, |known| known.or_worse(here)));
                }
                all
            }
        }
    }

    /// The seat it needs under the hardest push, on wood of the stock asked; none for steel, whose plate is designed.
    fn seat(&self, stock: Stock, asked: &[Asked]) -> Option<Inches> {
        let plate = lumber(stock.species, stock.grade, Member::sawn(2, 4))?.values.fc_perp;
        let across = self.across(stock)?.min(plate);
        let most = asked.iter().flat_map(|it| it.reactions.iter().map(|it| it.1)).fold(Pounds::ZERO, Pounds::max);
        Some(length_needed(most, self.section().width, across))
    }
}

/// The beams that carry what comes in every house.
pub(super) fn beams(houses: &[Apart<'_>], refusals: &[Refusal]) -> Beams {
    let heavy = |it: &&Apart<'_>| heaviest(&it.beam.top, it.case.plan.site()).0;
    let heaviest = houses.iter().reduce(|one, other| if heavy(&other) > heavy(&one) { other } else { one });
    let (Some(first), Some(heaviest)) = (houses.first(), heaviest) else { return Beams::default() };
    let (case, task) = (&first.case, &first.task);
    let supports = task.piece.supports();
    let spans: Vec<Feet> = supports.windows(2).filter_map(|it| Some(*it.get(1)? - *it.first()?)).collect();
    let (line, points) = (heaviest.beam.line.clone(), heaviest.beam.points.clone());
    let mut all = Beams { line, points, all: heaviest.beam.top, spans, ..Beams::default() };
    let apart = |it: &Apart<'_>| match it.task.held {
        Held::Every(apart) => Some(apart),
        _ => None,
    };
    all.held = houses.iter().filter_map(apart).fold(Inches::ZERO, Inches::max);
    let bare = |it: &Apart<'_>| {
        asked(&it.task.piece, &it.task.loads, it.case.plan.site(), Bears::TiedSpanBySpan).unwrap_or_default()
    };
    let bare: Vec<Vec<Asked>> = houses.iter().map(bare).collect();
    for family in Family::ALL {
        let why = match () {
            () if refusals.iter().any(|it| it.blocks) => Some(NoBeam::Refused),
            () if task.longest > LONGEST => Some(NoBeam::SpanTooLong),
            () if family == Family::BuiltUp && task.longest > LONGEST_SAWN => Some(NoBeam::NotSoLong),
            () => None,
        };
        let found = if why.is_some() { Vec::new() } else { of_family(houses, family, &bare) };
        if found.is_empty() {
            all.none.push((family, why.unwrap_or(NoBeam::NoneCarries)));
        }
        all.choices.extend(found);
    }
    all.choices.order_by(|a, b| a.weight.0.total_cmp(&b.weight.0));
    if let Some(first) = all.choices.first_mut() {
        first.lightest = true;
    }
    let shallowest = all.choices.iter().map(|it| it.depth).fold(Inches(f64::INFINITY), Inches::min);
    if let Some(it) = all.choices.iter_mut().find(|it| it.depth <= shallowest) {
        it.shallowest = true;
    }
    for it in houses {
        let leans = it.beam.rests.iter().filter(|rest| it.task.seats.iter().all(|seat| seat.0 != rest.on));
        for rest in leans {
            if all.leans_on.iter().all(|known| known.0 != rest.on) {
                all.leans_on.push((rest.on, rest.weights));
            }
        }
    }
    let times = houses.iter().zip(&bare).filter_map(|(it, bare)| {
        let old = old_moment(&it.case)?;
        Some(bare.iter().map(|it| it.moment).fold(FootPounds::ZERO, FootPounds::max) / old)
    });
    all.times = times.reduce(f64::max);
    for choice in &mut all.choices {
        choice.sentence = case.words.choice(choice, case.stretch.set);
        choice.figures = case.words.choice_figures(choice, case.length());
    }
    all.plies = case.words.plies();
    all
}

/// What comes to each support in each house, with the lightest of the beams.
pub(super) fn supports(houses: &[Apart<'_>], beams: &Beams) -> Vec<Vec<Support>> {
    let own = beams.choices.first().map_or(Plf::ZERO, |it| it.own);
    houses.iter().map(|it| ends(&it.case, &it.task, own)).collect()
}

impl Beams {
    /// The supports that are posts, each with all that comes to it.
    pub(super) fn posts(&self) -> Vec<Support> {
        let posts = self.supports.iter().filter(|it| matches!(it.on, Node::Post(_)));
        let whole = posts.map(|it| {
            let (weights, with_beam) = (it.weights + it.besides, it.with_beam + it.besides);
            Support { weights, with_beam, most: it.whole.0, under: it.whole.1, ..it.clone() }
        });
        whole.collect()
    }
}

/// The greatest moment in the old beam over the stretch as it stands; none where no beam goes.
fn old_moment(case: &Case<'_>) -> Option<FootPounds> {
    let Node::Beam(_) = case.line.node else { return None };
    let (a, b) = (case.line.a.into(), case.line.b.into());
    let own = Frame::from_to(a, b)?;
    let start = own.local(a).0;
    let over = |it: &&Carried| {
        let (one, other) = (own.local(it.a).0 - start, own.local(it.b).0 - start);
        it.of == case.line.node && one.max(other) > case.stretch.from + HAIR && one.min(other) < case.stretch.to - HAIR
    };
    let asked = |it: &Carried| asked(&bar(it), &it.loads, case.plan.site(), Bears::Pushing);
    let moments = case.before.carried.iter().filter(over).filter_map(asked).flatten().map(|it| it.moment);
    moments.reduce(FootPounds::max).filter(|it| *it > FootPounds::ZERO)
}

/// Those of a family that pass: the lightest three and the shallowest two.
fn of_family(houses: &[Apart<'_>], family: Family, bare: &[Vec<Asked>]) -> Vec<Choice> {
    // A beam that fails without its own weight fails with it.
    let passes = |made: &Made| {
        let mut all = houses.iter().zip(bare);
        all.all(|(house, bare)| made.check(&house.task, bare).is_some_and(|it| it.passes()))
    };
    let mut likely: Vec<Made> = Made::all(family).into_iter().filter(passes).collect();
    let mut found: Vec<(Made, Choice)> = Vec::new();
    for (many, by) in [(3, Made::own as fn(&Made) -> Plf), (2, |made: &Made| Plf(made.section().depth.0))] {
        likely.order_by(|a, b| by(a).0.total_cmp(&by(b).0).then(a.own().0.total_cmp(&b.own().0)));
        let mut count = 0;
        for made in &likely {
            if count == many {
                break;
            }
            if found.iter().any(|it| it.0 == *made) {
                count += 1;
            } else if let Some(choice) = choice(houses, made) {
                found.push((*made, choice));
                count += 1;
            }
        }
    }
    found.into_iter().map(|it| it.1).collect()
}

fn choice(houses: &[Apart<'_>], made: &Made) -> Option<Choice> {
    let own = made.own();
    let Apart { case, task, .. } = houses.first()?;
    let (mut worst, mut seat): (Option<Checked>, Option<Inches>) = (None, None);
    for house in houses {
        let loads = house.task.with(own);
        let asked = asked(&house.task.piece, &loads, house.case.plan.site(), Bears::TiedSpanBySpan)?;
        let here = made.check(&house.task, &asked).filter(Checked::passes)?;
        worst = Some(worst.map_or(here, |known| known.or_worse(here)));
        let needs = made.seat(task.stock, &asked);
        seat = [seat, needs].into_iter().flatten().reduce(Inches::max);
    }
    let checked = worst?;
    if seat.is_some_and(|it| it > LONGEST_SEAT) {
        return None;
    }
    let Section { width, depth } = made.section();
    let weight = own * task.piece.to();
    let piece = weight / f64::from(made.plies());
    let people = jacks(Inches(piece.0), Inches(LIFT.value.0));
    let part = |sag: Inches| if sag.0 > 0.0 { Inches::from(checked.span) / sag } else { f64::INFINITY };
    // The least of what is seen of them: a beam between shallower joists hangs lower.
    let joists = houses.iter().filter_map(|it| it.case.joist_depth()).reduce(Inches::min);
    let drops = match case.stretch.set {
        Set::Dropped => Some(depth),
        Set::Flush => joists.map(|joists| (depth - joists).max(Inches::ZERO)),
    };
    Some(Choice {
        family: made.family(),
        name: match *made {
            Made::Sawn(member) => format!("{member} {}", crate::words::take_out::stock(task.stock)),
            Made::Lvl(plies, depth) => {
                format!("{plies}-ply LVL 1.9E, 1 3/4 x {}", crate::words::take_out::fraction(depth))
            }
            Made::Glulam(width, depth) => {
                let fraction = crate::words::take_out::fraction;
                format!("glulam 24F-1.8E, {} x {}", fraction(width), fraction(depth))
            }
            Made::Steel(shape) => format!("steel {} {}", shape.name, A992.name),
        },
        width,
        depth,
        plies: made.plies(),
        own,
        weight,
        piece,
        people: (people <= CARRIERS).then_some(people.max(1)),
        checked,
        governs: checked.governing(),
        live_part: part(checked.live_sag),
        total_part: part(checked.total_sag),
        drops,
        seat,
        studs: seat.map(|seat| jacks(seat, STUD).max(1)),
        lightest: false,
        shallowest: false,
        sentence: String::new(),
        figures: Vec::new(),
    })
}

/// What each support gets by kind; together all that lies on the beam.
fn ends(case: &Case<'_>, task: &Task, own: Plf) -> Vec<Support> {
    let site = case.plan.site();
    let Some(contact) = task.piece.held() else { return Vec::new() };
    let by_kind = |loads: &[(Load, ByKind<f64>)]| {
        let mut all = vec![Weights::default(); task.piece.supports().len()];
        for (load, times) in loads {
            for (sum, reaction) in all.iter_mut().zip(contact.reactions(std::slice::from_ref(load))) {
                *sum += times.map(|times| reaction * times);
            }
        }
        all
    };
    let with_own = task.with(own);
    let worst = asked(&task.piece, &with_own, site, Bears::TiedSpanBySpan).unwrap_or_default();
    let mut all = Vec::new();
    let both = by_kind(&task.loads).into_iter().zip(by_kind(&with_own));
    for (number, ((weights, with_beam), at)) in both.zip(task.piece.supports()).enumerate() {
        let (most, under) = heaviest(&with_beam, site);
        let (on, _, besides) = task.seats.get(number).copied().unwrap_or((Node::Gap, *at, Weights::default()));
        let whole = heaviest(&(with_beam + besides), site);
        let mut support = Support { at: *at, weights, with_beam, most, under, least: most, on, besides, whole };
        for one in &worst {
            let Some((least, most)) = one.reactions.get(number) else { continue };
            let all = *most + one.combination.of(&besides, site);
            if all > support.whole.0 {
                support.whole = (all, one.combination);
            }
            support.least = support.least.min(*least);
            if *most > support.most {
                (support.most, support.under) = (*most, one.combination);
            }
        }
        all.push(support);
    }
    all
}
