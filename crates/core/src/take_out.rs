//! The take-out study: what lands on a stretch of a wall, or of a beam whose posts go, what happens without it, and what could
//! take over.
//!
//! The house is not edited: the study holds two more plans, one with the stretch gone and one with a beam and posts in its
//! place, so that both can be traced, drawn and compared with what stands. Every size is one to talk and budget with; the
//! licensed engineer decides. Wind, earthquake and connections are absent.

use serde::{Serialize, Serializer};

use crate::ids::{BeamId, ObservationId, PostId, WallId};
use crate::plan::{Plan, PlanFile, Set};
use crate::readings::{Answer, Judgement, Unknown};
use crate::units::{Feet, Pounds, Ticks};

mod beam;
mod case;
mod column;
mod down;
mod ends;
mod governing;
mod joint;
mod lands;
mod line;
mod loses;
mod member;
mod merge;
mod plans;
mod prop;
mod refusals;
mod shoring;
mod steps;

pub use crate::plan::{Away, Kept, Stock};
pub use beam::{Beams, CARRIERS, Choice, Family, LIFT, LONGEST, NoBeam, Support};
use case::{Case, Traced};
pub use column::Column;
pub(crate) use column::{is_timber, of_post};
pub(crate) use down::FOOT;
pub use down::{Down, OpenUp, Pack, PadSize, PostDown, Pressed, Reloaded};
pub use ends::{Ends, Face, HeaderChoice, PostChoice, PostMake, Posts};
pub use governing::Studying;
pub use lands::{Lands, SimpleEnds};
pub use line::{of_posts, under_joists};
pub use loses::{Fate, Loses, Lost, Meets, Need, Needs, Ties, needs};
pub(crate) use member::Standing;
pub use member::{Checked, NoFigure, Ratio};
pub use prop::Prop;
pub use refusals::{About, IJoistAt, Refusal};
pub use shoring::{PROPS_APART, PropLine, PropsOn, Shoring, Skip};
pub use steps::{ASBESTOS_UP_TO, LEAD_BEFORE, Step, Work};

/// Ends nearer to those of the line than this are at them, in feet.
const AT_END: Feet = Feet(1.0 / 12.0);

/// What is asked: a stretch of one line, what goes there, and how it is to be replaced.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Stretch {
    /// What goes, and with it the line: a wall, a beam on posts, or one where nothing stands any more.
    pub away: Away,
    /// Where it begins, from end `a` of the line.
    pub from: Feet,
    /// Where it stops, from end `a` of the line.
    pub to: Feet,
    /// Whether the beam goes under the joists or between them.
    pub set: Set,
    /// New posts between the two ends, from end `a` of the line; one within a foot of another, or of an end, is that one.
    pub posts_between: Vec<Feet>,
    /// Species and grade of sawn pieces.
    pub lumber: Stock,
    /// How far from the line the temporary props stand.
    pub shoring_offset: Feet,
}

impl Stretch {
    /// A stretch with a dropped beam, no post between, usual lumber, props 2 ft off.
    #[must_use]
    pub fn new(away: Away, from: Feet, to: Feet) -> Self {
        let (set, lumber) = (Set::Dropped, Stock::default());
        Self { away, from, to, set, posts_between: Vec::new(), lumber, shoring_offset: Feet(2.0) }
    }

    /// The same of a wall.
    #[must_use]
    pub fn of(wall: WallId, from: Feet, to: Feet) -> Self {
        Self::new(Away::Wall(wall), from, to)
    }

    /// As it is kept with the house, under a name.
    #[must_use]
    pub fn kept(&self, name: &str) -> Kept {
        let Self { away, set, lumber, .. } = *self;
        let ticks = |at: Feet| Ticks::from_decimal_feet(at).unwrap_or_default();
        let posts_between = self.posts_between.iter().copied().map(ticks).collect();
        let (from, to, offset) = (ticks(self.from), ticks(self.to), ticks(self.shoring_offset));
        Kept { name: name.to_owned(), away, from, to, set, posts_between, lumber, offset }
    }
}

impl From<&Kept> for Stretch {
    fn from(kept: &Kept) -> Self {
        let Kept { away, from, to, set, lumber, offset, .. } = *kept;
        let posts_between = kept.posts_between.iter().map(|it| it.feet()).collect();
        Self { away, from: from.feet(), to: to.feet(), set, posts_between, lumber, shoring_offset: offset.feet() }
    }
}

/// All that follows.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Study {
    /// What was asked, brought within its line: an opening that an end cuts is taken out whole, an end beside a post is at it.
    pub stretch: Stretch,
    /// Of which houses it is.
    pub over: Over,
    /// What it cannot judge, and what it always asks.
    pub refusals: Vec<Refusal>,
    /// The house with the stretch gone and nothing in its place.
    #[serde(serialize_with = "as_file")]
    pub without: Plan,
    /// The house with a beam on posts in its place, and pads where the lowest level has none.
    #[serde(serialize_with = "as_file")]
    pub proposed: Plan,
    /// The beam in it.
    pub beam: BeamId,
    /// Its posts, from end `a` of the beam.
    pub posts: Vec<(PostId, Feet)>,
    /// What lands on it now, in the house in which most does.
    pub lands: Lands,
    /// What happens in that house if nothing takes over.
    pub loses: Loses,
    /// Beams that could take over.
    pub beams: Beams,
    /// Hangers, posts and headers.
    pub ends: Ends,
    /// From the posts to the soil.
    pub down: Down,
    /// Holding it up meanwhile.
    pub shoring: Shoring,
    /// The order of work.
    pub steps: Vec<Step>,
    /// Each house that was studied: its loads before and after.
    pub studied: Vec<Studied>,
}

/// Of which houses a study is: every figure in it is that of the house in which it is worst.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Over {
    /// Whether every reading of the house was traced for it; if not, it is of the house as drawn, and not yet of the worst.
    pub read: bool,
    /// How many readings were traced.
    pub traced: usize,
    /// How many houses were studied: the one that is drawn, and those in which something is worst.
    pub houses: usize,
    /// The least that lands on the stretch in any reading, heaviest combination.
    pub least: Pounds,
    /// The most.
    pub most: Pounds,
    /// The most that any one thing presses or lifts in any reading: loads that cancel are not nothing.
    pub presses: Pounds,
    /// Whether the role of each part of it is the same in every reading.
    pub settled: bool,
    /// Whether some part of it carries, or may, in every reading.
    pub bears: bool,
    /// Whether no reading was left out.
    pub complete: bool,
    /// The most that would land where joists turn beside it and end on it: no house here draws that.
    pub turned: Pounds,
    /// What was seen there that carries, and what it holds is not drawn.
    pub unsourced: Vec<ObservationId>,
    /// What is so in the house in which most lands, of what is not settled.
    pub governs: Vec<(Unknown, Answer)>,
}

/// The loads of one house of a study.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Studied {
    /// What lands on the stretch.
    pub lands: Lands,
    /// What comes to each support of the new beam, its own weight left out.
    pub supports: Vec<Support>,
    /// Holding it up meanwhile.
    pub shoring: Shoring,
    /// The house, with a wall back where one was taken out.
    #[serde(skip)]
    pub house: Plan,
    /// The same without the stretch.
    #[serde(skip)]
    pub without: Plan,
    /// The same with the beam.
    #[serde(skip)]
    pub proposed: Plan,
}

fn as_file<S: Serializer>(plan: &Plan, serializer: S) -> Result<S::Ok, S::Error> {
    PlanFile::from(plan).serialize(serializer)
}

/// The study of one stretch of the house as it is drawn; none for a wall or beam that the plan does not hold, or a stretch of no
/// length. Nothing may be cut by it alone: what else the house may be is not in it.
#[must_use]
pub fn take_out(plan: &Plan, stretch: &Stretch) -> Option<Study> {
    Studying::new(plan, stretch, None)?.study()
}

/// The study over all readings of the house: each is traced as a house of its own, and what is sized is sized for the worst of
/// them. The plan is the house as it is known, of which the judgement was made.
#[must_use]
pub fn take_out_read(plan: &Plan, stretch: &Stretch, judgement: &Judgement) -> Option<Study> {
    let mut studying = Studying::new(plan, stretch, Some(judgement))?;
    while studying.step() {}
    studying.study()
}
