//! Two houses that may both be there: props, far ends and needles for the worse of them, part by part.

use super::{Block, Held, Holds, PropLine, Shoring};
use crate::order::InOrder as _;
use crate::plan::Stock;
use crate::take_out::member::Checked;
use crate::units::Plf;
use crate::words::Words;

impl PropLine {
    /// The heavier line, on the least far end and the worst joists of both; left out only where both leave it out.
    #[must_use]
    fn worse(self, other: Self) -> Self {
        let leaves = |it: &Self| it.skip.is_some();
        let (far, alone) = (self.far.min(other.far), self.alone.min(other.alone));
        let joists = match (self.joists, other.joists) {
            (Some(one), Some(other)) => Some(one.or_worse(other)),
            (one, other) => one.or(other),
        };
        let floor: Option<Checked> = match (self.floor, other.floor) {
            (Some(one), Some(other)) => Some(one.or_worse(other)),
            (one, other) => one.or(other),
        };
        let weakened = match (self.weakened, other.weakened) {
            (Some(one), Some(other)) if one.worst.ratio >= other.worst.ratio => Some(one),
            (one, other) => other.or(one),
        };
        let no_prop = self.no_prop.or(other.no_prop);
        let (on_props, no_way) = (self.on_props.max(other.on_props), self.no_way.or(other.no_way));
        let other_heavier = match (leaves(&self), leaves(&other)) {
            (true, false) => true,
            (false, true) => false,
            _ => other.most > self.most,
        };
        let (heavier, lighter) = if other_heavier { (other, self) } else { (self, other) };
        // Joists further apart may ask for props closer together.
        let closer = match (heavier.prop, lighter.prop) {
            (Some(one), Some(other)) if lighter.skip.is_none() && other.apart < one.apart => Some(other),
            (one, _) => one,
        };
        let prop = closer.filter(|_| no_prop.is_none());
        Self { far, alone, joists, floor, weakened, on_props, no_way, prop, no_prop, ..heavier }
    }
}

impl Shoring {
    /// What holds both houses: the heavier line on each side, the least far ends, all that must be held in either; `words` of
    /// the house as it is drawn.
    #[must_use]
    pub fn worse(mut self, other: Self, words: &Words<'_>, lumber: Stock) -> Self {
        let Self { lines, held, blocked, below, thrust, notes, .. } = other;
        for line in lines {
            match self.lines.iter().position(|it| it.left == line.left) {
                Some(at) => {
                    let known = self.lines.remove(at);
                    let mut worse = known.worse(line);
                    (worse.sentence, worse.figures) = words.prop_line(&worse, lumber);
                    self.lines.insert(at, worse);
                }
                None => self.lines.push(line),
            }
        }
        self.lines.order_by_key(|it| !it.left);
        for it in held {
            let same = |known: &&mut Held| known.what == it.what && at(known) == at(&it);
            match self.held.iter_mut().find(same) {
                Some(known) => {
                    if rank(&it) > rank(known) {
                        *known = it;
                    }
                }
                None => self.held.push(it),
            }
        }
        for it in blocked {
            match self.blocked.iter_mut().find(|known| same(&known.about, &it.about)) {
                Some(known) => {
                    if weight(&it.about) > weight(&known.about) {
                        *known = it;
                    }
                }
                None => self.blocked.push(it),
            }
        }
        self.below.extend(below.into_iter().filter(|it| !self.below.contains(it)).collect::<Vec<_>>());
        let more = |one: crate::loads::Weights, other: crate::loads::Weights| {
            if other.all() > one.all() { other } else { one }
        };
        self.thrust = match (self.thrust, thrust) {
            (Some(one), Some(other)) => Some(more(one, other)),
            (one, other) => one.or(other),
        };
        self.notes.extend(notes.into_iter().filter(|it| !self.notes.contains(it)).collect::<Vec<_>>());
        self.tell();
        self
    }
}

/// The place of something, to whole sixteenths.
fn at(it: &Held) -> Option<i32> {
    it.at.and_then(crate::units::Ticks::from_decimal_feet).map(|it| it.get() / 127)
}

/// What is held by less comes first, then what weighs more.
fn rank(it: &Held) -> (u8, f64) {
    let by = match it.by {
        Holds::JoistEnds => 0,
        Holds::OwnProp(_) => 1,
        Holds::Needles(_) => 2,
        Holds::Nothing(_) => 3,
    };
    (by, it.most.0)
}

fn same(one: &Block, other: &Block) -> bool {
    match (*one, *other) {
        (Block::Tips { left: a, .. }, Block::Tips { left: b, .. })
        | (Block::JoistsFail { left: a, .. }, Block::JoistsFail { left: b, .. })
        | (Block::JoistsNotKnown { left: a }, Block::JoistsNotKnown { left: b })
        | (Block::NoProp { left: a, .. }, Block::NoProp { left: b, .. }) => a == b,
        (Block::NoWayDown { left: a, why }, Block::NoWayDown { left: b, why: other }) => (a, why) == (b, other),
        (Block::NotHeld { what: a, why, .. }, Block::NotHeld { what: b, why: other, .. }) => (a, why) == (b, other),
        _ => false,
    }
}

/// How bad a block is, beside others of its kind.
fn weight(it: &Block) -> f64 {
    match *it {
        Block::Tips { far, .. } => -far.0,
        Block::JoistsFail { ratio, .. } => ratio,
        Block::NoProp { most: Plf(most), .. } => most,
        Block::NotHeld { most, .. } => most.0,
        Block::JoistsNotKnown { .. } | Block::NoWayDown { .. } => 0.0,
    }
}
