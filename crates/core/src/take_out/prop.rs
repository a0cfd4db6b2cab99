//! One prop of a line: a sawn post at the height of the highest level that it stands on, the header it carries and the plates that it presses.
//!
//! Everything besides dead load counts as floor live load, so that CD is 1.0 at the most: nobody says how long props stand,
//! and the 1.25 of seven days (NDS Table 2.3.2) is not taken. Nails, braces and adjustable steel props are absent.

use serde::Serialize;

use super::Case;
use super::column::{Column, column};
use super::member::{Checked, FLOOR_JOISTS, Standing};
use super::shoring::PROPS_APART;
use crate::loads::{ByKind, LineLoads, heaviest};
use crate::members::bearing::area_factor;
use crate::members::section::Section;
use crate::plan::Member;
use crate::statics::{Load, Piece};
use crate::strength::lumber::lumber;
use crate::units::{Feet, Inches, Plf, Pounds, Ticks};

/// Props closer than this, the usual spacing of joists, are a stud wall (ours).
pub(super) const LEAST_APART: Feet = Feet(4.0 / 3.0);
/// Posts tried as props, the usual one first (common practice).
pub(super) const PROPS: [(u8, u8); 3] = [(4, 4), (4, 6), (6, 6)];
/// Headers tried on them, nominal 4 thick on edge, by their nominal depth in inches.
const HEADERS: [u8; 5] = [4, 6, 8, 10, 12];
/// How wide a header is that lies on a prop: a nominal 4, dressed.
const HEADER_WIDTH: Inches = Inches(3.5);

/// One prop with what it carries.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Prop {
    /// What it is.
    pub member: Member,
    /// How far apart such props may stand along their line, [`PROPS_APART`] at the most.
    pub apart: Feet,
    /// What one of them then carries, a joist right over it.
    pub asked: Pounds,
    /// As a column.
    pub column: Column,
    /// The wood that it presses, of the header over it and of the plate under it, in square inches.
    pub area: f64,
    /// How hard it presses that, over what it may take (NDS 3.10.2, 3.10.4).
    pub plate: f64,
    /// The header over such props, on edge, checked over that distance with joists where they are worst; none that passes here.
    pub header: Option<(Member, Checked)>,
}

/// The first post that carries this line load, how far apart, and the header that spans from one to the next; `between` from
/// joist to joist. None where no post here carries it at [`LEAST_APART`].
pub(super) fn prop_under(case: &Case<'_>, line: &LineLoads, between: Feet) -> Option<Prop> {
    let (stock, site) = (case.stretch.lumber, case.plan.site());
    let most = heaviest(line, site).0;
    let lumped = LineLoads { dead: line.dead, floor: most - line.dead, ..LineLoads::default() };
    let height = height(case);
    let across = lumber(stock.species, stock.grade, Member::sawn(2, 4))?.values.fc_perp;
    PROPS.into_iter().find_map(|(width, depth)| {
        let member = Member::sawn(width, depth);
        let section = Section::of(member)?;
        let on_a_foot = column(member, stock, height, &lumped.map(|it| it * Feet(1.0)), site)?;
        let area = section.depth * section.width.min(HEADER_WIDTH);
        // Somewhere along a plate: both ends of it further than 3 in.
        let allowed = across * area_factor(section.depth, Inches(3.0)) * area;
        // Each foot of the line uses so much of it.
        let used = on_a_foot.ratio.max(most * Feet(1.0) / allowed);
        let apart = inches_apart().find(|apart| used * on_one(*apart, between).0 <= 1.0)?;
        let line = on_one(apart, between);
        let found = column(member, stock, height, &lumped.map(|it| it * line), site)?;
        let asked = most * line;
        let prop = Prop { member, apart, asked, column: found, area: area.0, plate: asked / allowed, header: None };
        let holds = found.passes() && prop.plate <= 1.0;
        holds.then(|| Prop { header: header(case, &lumped, apart, between), ..prop })
    })
}

/// The same props stand on the levels below, down to the ground: the highest of them counts.
pub(super) fn height(case: &Case<'_>) -> Inches {
    let below = case.plan.levels().iter().take_while(|it| it.id != case.level.id).map(|it| it.height);
    Inches(below.fold(case.level.height, Ticks::max).inches())
}

/// Whole inches that props may stand apart, the furthest first.
fn inches_apart() -> impl Iterator<Item = Feet> {
    std::iter::successors(Some(PROPS_APART), |it| Some(*it - Feet(1.0 / 12.0)))
        .take_while(|it| *it > LEAST_APART - Feet(1e-9))
}

/// How much of the line one prop has where a joist is right over it: that joist, and of each other over the headers on both
/// sides its share by the lever. As much as the distance of the props where whole bays of joists fit in, more elsewhere.
fn on_one(apart: Feet, between: Feet) -> Feet {
    let (mut all, mut off) = (between, between);
    while off < apart && off > Feet::ZERO {
        all += between * (2.0 * (1.0 - off / apart));
        off += between;
    }
    all
}

/// The shallowest header from prop to prop under joists, one of them at mid-span or as far from a prop as it is deep.
fn header(case: &Case<'_>, line: &LineLoads, apart: Feet, between: Feet) -> Option<(Member, Checked)> {
    let each = (*line * between).map(|it: Pounds| it.0);
    // Joists from the first of them on.
    let from = |first: Feet| -> Vec<(Load, ByKind<f64>)> {
        let places = std::iter::successors(Some(first), |at| Some(*at + between));
        let over = places.take_while(|at| *at < apart && between > Feet::ZERO).filter(|at| *at > Feet::ZERO);
        over.map(|at| (Load::Point { at, weight: Pounds(1.0) }, each)).collect()
    };
    let middle = Feet((apart.0 / 2.0) % between.0);
    let piece = Piece::new(Feet::ZERO, apart, &[Feet::ZERO, apart]);
    let even: [(Load, ByKind<f64>); 1] = [(Load::uniform(Feet::ZERO, apart, Plf(1.0)), line.map(|it: Plf| it.0))];
    HEADERS.into_iter().find_map(|depth| {
        let (member, stock) = (Member::sawn(4, depth), case.stretch.lumber);
        let standing = Standing { member, wood: stock.into(), alike: (1, Inches::ZERO), limits: FLOOR_JOISTS };
        let check = |loads: &[(Load, ByKind<f64>)]| standing.check(&piece, loads, case.plan.site()).ok();
        // Shear is worst with a joist beside a prop: nearer than the header is deep it counts for less (NDS 3.4.3.1, MEMORY).
        let beside = Feet::from(Section::of(member)?.depth);
        let checked = check(&from(middle))?.or_worse(check(&from(beside))?).or_worse(check(&even)?);
        checked.passes().then_some((member, checked))
    })
}
