//! What holds the beam and what it holds: hangers, posts under its ends, and headers for a narrower opening.
//!
//! Capacities to ask for, and wood that passes; no product is named. Nails, straps and bases are the engineer's and maker's.

use serde::Serialize;

use super::beam::{Beams, Support};
use super::column::{Column, column};
use super::loses::bar;
use super::{Case, Refusal, Traced};
use crate::card::Figure;
use crate::geometry::Frame;
use crate::ids::BeamId;
use crate::loads::{Combination, Kind, Weights, heaviest};
use crate::members::bearing::area_factor;
use crate::members::section::Section;
use crate::order::InOrder as _;
use crate::plan::{Member, Set, Side};
use crate::strength::headers::{Above, Header, Tables};
use crate::strength::lumber::lumber;
use crate::trace::Node;
use crate::units::{Feet, Inches, Pounds};

/// Hangers on one face of a beam between the joists.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Face {
    /// The left face, seen from end `a` of the line to end `b`.
    pub left: bool,
    /// How many.
    pub count: usize,
    /// What the heaviest-loaded one has to hold, by kind.
    pub each: Weights,
    /// Its heaviest combination.
    pub most: Pounds,
    /// Which.
    pub under: Combination,
    /// What the joists are.
    pub member: Member,
}

/// What a post may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum PostMake {
    /// Studs nailed together.
    Studs,
    /// One timber.
    Timber,
}

/// A post that carries its support.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PostChoice {
    /// What it is.
    pub make: PostMake,
    /// "3-2x4".
    pub name: String,
    /// How many plies.
    pub plies: u8,
    /// What it may carry under the combination that is worst for it.
    pub carries: Pounds,
    /// Asked over that.
    pub ratio: f64,
    /// Under which.
    pub under: Combination,
    /// Cp.
    pub cp: f64,
    /// How hard it presses a plate of the species asked, over what that may take (NDS 3.10.2).
    pub plate: f64,
}

/// The post under one support.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Posts {
    /// From the end of the beam.
    pub at: Feet,
    /// What it is asked to carry.
    pub asked: Pounds,
    /// Under which combination.
    pub under: Combination,
    /// Its height.
    pub height: Inches,
    /// Those that carry it, smallest first.
    pub choices: Vec<PostChoice>,
    /// What a steel column would have to carry, by its maker's table at this height.
    pub steel: Pounds,
    /// How hard it pulls up at the worst, if it does.
    pub uplift: Option<Pounds>,
    /// In a sentence.
    pub sentence: String,
    /// The figures.
    pub figures: Vec<Figure>,
}

/// A header for a narrower opening.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct HeaderChoice {
    /// Its size.
    pub member: Member,
    /// The widest opening.
    pub longest: Feet,
    /// Jack studs under each end at that width.
    pub jacks: u32,
}

/// Why the code's tables of headers name none for this wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum NoHeaders {
    /// More than joists, rafters and walls comes down here.
    PointLoads,
    /// An inside wall under a roof.
    RoofOnInsideWall,
    /// Their rows go by the ground snow load, which nobody stated.
    SnowNotStated,
    /// Two floors on an outside wall: the rule that is fitted here has one.
    TwoFloors,
    /// A house wider, or snow heavier, than their rows.
    PastTheRows,
}

/// All of it.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Ends {
    /// Hangers, for a beam between the joists.
    pub hangers: Vec<Face>,
    /// Posts, from the end of the beam nearer to end `a` of the line.
    pub posts: Vec<Posts>,
    /// Headers of the code's tables for a narrower opening in this wall; none where the tables do not reach.
    pub headers: Vec<HeaderChoice>,
    /// Why the tables name none; none where they do, or where nobody would use one.
    pub no_headers: Option<NoHeaders>,
    /// The figures of hangers.
    pub figures: Vec<Figure>,
    /// The figures of headers.
    pub header_figures: Vec<Figure>,
}

pub(super) fn ends(case: &Case<'_>, after: &Traced, (id, beams): (BeamId, &Beams), refusals: &[Refusal]) -> Ends {
    let refused = refusals.iter().any(|it| it.blocks);
    let hangers = if case.stretch.set == Set::Flush { hangers(case, after, id) } else { Vec::new() };
    let posts = beams.posts().iter().map(|support| posts(case, support)).collect();
    let (headers, no_headers) = match headers(case) {
        _ if refused || case.line.wall.is_none() => (Vec::new(), None),
        Ok(headers) => (headers, None),
        Err(why) => (Vec::new(), Some(why)),
    };
    let mut all = Ends { hangers, posts, headers, no_headers, ..Ends::default() };
    for post in &mut all.posts {
        if refused {
            post.choices.clear();
            post.figures.clear();
        }
        post.sentence = case.words.post_asked(post, refused);
    }
    all.figures = case.words.hangers(&all.hangers);
    all.header_figures = case.words.headers(&all.headers);
    all.header_figures.extend(no_headers.map(crate::words::joined::no_headers));
    all
}

/// Every joist that ends on the beam, by its face.
fn hangers(case: &Case<'_>, after: &Traced, beam: BeamId) -> Vec<Face> {
    let (line, site) = (case.line, case.plan.site());
    let Some(own) = Frame::between(line.a, line.b) else { return Vec::new() };
    let line = own.local(line.a.into()).1;
    let mut faces: Vec<Face> = Vec::new();
    for piece in after.carried.iter().filter(|it| matches!(it.of, Node::Field(_)) && it.rests) {
        for (number, _) in piece.seats.iter().enumerate().filter(|it| it.1.1 == Node::Beam(beam)) {
            let (a, b) = (own.local(piece.a).1 - line, own.local(piece.b).1 - line);
            let left = if a.abs() > b.abs() { a } else { b } > Feet::ZERO;
            let mut each = Weights::default();
            let Some(contact) = contact(piece) else { continue };
            for (load, times) in &piece.loads {
                let reactions = contact.reactions(std::slice::from_ref(load));
                let Some(reaction) = reactions.get(number) else { continue };
                each += times.map(|times| *reaction * times);
            }
            let (most, under) = heaviest(&each, site);
            let Node::Field(field) = piece.of else { continue };
            let member = case.field(field).map(|it| it.1.member).unwrap_or_default();
            match faces.iter_mut().find(|it| it.left == left && it.member == member) {
                Some(face) => {
                    face.count += 1;
                    if most > face.most {
                        (face.each, face.most, face.under) = (each, most, under);
                    }
                }
                None => faces.push(Face { left, count: 1, each, most, under, member }),
            }
        }
    }
    faces
}

/// The contact of a piece under all that lies on it.
fn contact(piece: &crate::trace::Carried) -> Option<crate::statics::Contact> {
    use crate::statics::Load;
    let together: Vec<Load> = piece
        .loads
        .iter()
        .map(|(load, times)| {
            let all = times.all();
            match *load {
                Load::Point { at, weight } => Load::Point { at, weight: weight * all },
                Load::Spread { from, to, start, end } => Load::Spread { from, to, start: start * all, end: end * all },
            }
        })
        .collect();
    bar(piece).settle(&together).ok()
}

/// Stud packs and timbers at the height of the level, held at head and foot alone.
fn posts(case: &Case<'_>, support: &Support) -> Posts {
    let stock = case.stretch.lumber;
    let height = Inches(case.level.height.inches());
    let mut choices: Vec<PostChoice> = Vec::new();
    for depth in [4, 6] {
        for plies in 2..=5 {
            choices.extend(choice(case, support, PostMake::Studs, Member::plies(plies, 2, depth), height));
        }
    }
    for (width, depth) in [(4, 4), (4, 6), (6, 6)] {
        choices.extend(choice(case, support, PostMake::Timber, Member::sawn(width, depth), height));
    }
    choices.order_by(|a, b| a.carries.0.total_cmp(&b.carries.0));
    let uplift = (support.least < Pounds::ZERO).then_some(support.least.abs());
    let mut posts = Posts {
        at: support.at,
        asked: support.most,
        under: support.under,
        height,
        choices,
        steel: support.most,
        uplift,
        sentence: String::new(),
        figures: Vec::new(),
    };
    posts.figures = case.words.posts(&posts, stock);
    posts
}

/// One that carries its support under every combination and is not too slender.
fn choice(case: &Case<'_>, support: &Support, make: PostMake, member: Member, height: Inches) -> Option<PostChoice> {
    let (stock, site) = (case.stretch.lumber, case.plan.site());
    let found =
        column(member, stock, height, &support.asked(site), site).filter(|it| it.passes() && it.ratio <= 1.0)?;
    let Column { cp, carries, ratio, under, .. } = found;
    let plate = lumber(stock.species, stock.grade, Member::sawn(2, 4))?.values.fc_perp;
    let section = Section::of(member)?;
    // Somewhere along a plate: both ends of it further than 3 in.
    let allowed = plate * area_factor(section.width, Inches(3.0));
    let plate = support.most / section.area() / allowed;
    Some(PostChoice { make, name: member.to_string(), plies: member.plies, carries, ratio, under, cp, plate })
}

/// Headers of R602.7 for this wall.
fn headers(case: &Case<'_>) -> Result<Vec<HeaderChoice>, NoHeaders> {
    let arrivals = case.arrivals.iter().fold(Weights::default(), |sum, it| sum + it.1);
    let roof = arrivals.get(Kind::RoofLive).0 > 0.0 || arrivals.get(Kind::Snow).0 > 0.0;
    let floor = arrivals.get(Kind::Floor).0 > 0.0;
    let wall_above = case.arrivals.iter().any(|it| matches!(it.0, Node::Wall(_)));
    let points = case.arrivals.iter().any(|it| !matches!(it.0, Node::Field(_) | Node::Wall(_) | Node::Roof(_)));
    let snow = case.plan.site().ground_snow;
    // A wall above with a floor on it: two floors and a roof, of which the fitted rule knows none.
    let two_floors = floor && case.arrivals.iter().any(|it| matches!(it.0, Node::Wall(_)) && it.1.floor.0 > 0.0);
    let side = case.line.wall.map(|it| it.side);
    let above = match (side, roof, floor) {
        _ if points => return Err(NoHeaders::PointLoads),
        (Some(Side::Inside), true, _) => return Err(NoHeaders::RoofOnInsideWall),
        (Some(Side::Inside) | None, _, _) if wall_above => Above::TwoFloors,
        (Some(Side::Inside) | None, _, _) => Above::OneFloor,
        (Some(Side::Outside), _, true) if two_floors => return Err(NoHeaders::TwoFloors),
        (Some(Side::Outside), _, true) => Above::RoofAndFloor(snow.ok_or(NoHeaders::SnowNotStated)?),
        (Some(Side::Outside), _, false) => Above::Roof(snow.ok_or(NoHeaders::SnowNotStated)?),
    };
    let Some(building_width) = width(case) else { return Err(NoHeaders::PastTheRows) };
    let mut all = Vec::new();
    for plies in 2..=4 {
        for depth in [4, 6, 8, 10, 12] {
            let member = Member::plies(plies, 2, depth);
            let header = Header { tables: Tables::R6027, member, building_width, above };
            let Some(longest) = header.longest().map(|it| it.value) else { continue };
            let Some(jacks) = header.jack_studs(longest) else { continue };
            all.push(HeaderChoice { member, longest, jacks });
        }
    }
    if all.is_empty() { Err(NoHeaders::PastTheRows) } else { Ok(all) }
}

/// The house across the wall.
fn width(case: &Case<'_>) -> Option<Feet> {
    let own = Frame::between(case.line.a, case.line.b)?;
    let outlines = case.level.outlines();
    let across: Vec<f64> = outlines.iter().flatten().map(|at| own.local((*at).into()).1.0).collect();
    let (lo, hi) = across.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(lo, hi), it| (lo.min(*it), hi.max(*it)));
    (hi > lo && case.line.length() > Feet::ZERO).then_some(Feet(hi - lo))
}
