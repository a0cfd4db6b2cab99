//! What the readings of one level say of its walls: cut where any of them changes, one role for each reading.

use super::level::{LevelWork, Reading};
use super::question::{Answer, Unknown};
use super::{Certainty, Judged, LIKELY, RuledOut};
use crate::ids::{LevelId, WallId};
use crate::order::InOrder as _;
use crate::trace::Role;
use crate::units::Feet;

/// Stretches shorter than this are rounding, in feet.
const SLIVER: f64 = 0.02;
/// Shares that differ by less are one.
const SAME: f64 = 1e-9;

/// A stretch of wall with its role in each reading.
#[derive(Clone, Debug)]
pub(crate) struct Column {
    pub(crate) wall: WallId,
    start: f64,
    end: f64,
    roles: Vec<Role>,
}

impl Column {
    /// Whether some of the readings agree on what it is.
    pub(crate) fn is_settled_in(&self, readings: impl IntoIterator<Item = usize>) -> bool {
        let mut roles = readings.into_iter().filter_map(|number| self.roles.get(number));
        let Some(first) = roles.next() else { return false };
        *first != Role::NeedsALook && roles.all(|role| role == first)
    }

    /// The same where somebody saw that nothing stands on it: what might have come down there does not.
    pub(crate) fn is_settled_if_bare_in(&self, readings: impl IntoIterator<Item = usize>) -> bool {
        let roles = readings.into_iter().filter_map(|number| self.roles.get(number));
        let mut roles = roles.filter(|role| **role != Role::NeedsALook);
        let first = roles.next();
        roles.all(|role| Some(role) == first)
    }

    pub(crate) fn role(&self, reading: usize) -> Option<Role> {
        self.roles.get(reading).copied()
    }
}

/// The readings of one level, side by side.
#[derive(Clone, Debug)]
pub(crate) struct Table {
    pub(crate) level: LevelId,
    pub(crate) questions: Vec<Unknown>,
    /// The answers of each reading, with its share.
    pub(crate) readings: Vec<(Vec<Answer>, f64)>,
    pub(crate) columns: Vec<Column>,
    doubted: Vec<WallId>,
}

impl Table {
    pub(super) fn of(work: &LevelWork, standing: &[&Reading]) -> Self {
        let all: f64 = standing.iter().map(|it| it.weight).sum();
        let share = |it: &&&Reading| if all > 0.0 { it.weight / all } else { 0.0 };
        let mut columns = Vec::new();
        for (number, wall) in work.walls.iter().enumerate() {
            columns.extend(of_wall(*wall, number, work.length(number).0, standing));
        }
        Self {
            level: work.level,
            questions: work.questions.clone(),
            readings: standing.iter().map(|it| (it.answers.clone(), share(&it))).collect(),
            columns,
            doubted: work.doubted.clone(),
        }
    }

    /// Whether what was seen of a wall fits together.
    pub(crate) fn is_doubted(&self, column: &Column) -> bool {
        self.doubted.contains(&column.wall)
    }

    pub(super) fn judged(&self) -> Vec<Judged> {
        let classes: Vec<Vec<Vec<usize>>> = (0..self.questions.len())
            .map(|number| self.classes(&[number]).into_iter().map(|it| it.1).collect())
            .collect();
        self.columns.iter().map(|column| self.judge(column, &classes)).collect()
    }

    fn judge(&self, column: &Column, classes: &[Vec<Vec<usize>>]) -> Judged {
        let everything = 0..self.readings.len();
        let roles = self.shares(column, everything.clone());
        let (role, share) = roles.first().copied().unwrap_or((Role::NeedsALook, 0.0));
        let certainty = if self.is_doubted(column) || role == Role::NeedsALook {
            Certainty::NeedsALook
        } else if column.is_settled_in(everything) {
            Certainty::Certain
        } else if share >= LIKELY {
            Certainty::Likely
        } else {
            Certainty::NeedsALook
        };
        let mut hangs: Vec<(f64, Unknown)> = Vec::new();
        for (unknown, classes) in self.questions.iter().zip(classes).filter(|it| roles.len() > 1 && it.1.len() > 1) {
            let sway = self.sway(column, classes, &roles);
            if sway > SAME {
                hangs.push((sway, *unknown));
            }
        }
        hangs.order_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
        let hangs_on = hangs.into_iter().map(|it| it.1).collect();
        let bears = |role: Role| !matches!(role, Role::NothingFound | Role::NeedsALook);
        let bears_in_all = !self.is_doubted(column) && !roles.is_empty() && roles.iter().all(|it| bears(it.0));
        let (start, end) = (Feet(column.start), Feet(column.end));
        Judged { wall: column.wall, start, end, certainty, bears_in_all, roles, hangs_on }
    }

    /// The roles of a stretch in some readings with their shares of these, the largest first.
    fn shares(&self, column: &Column, readings: impl IntoIterator<Item = usize>) -> Vec<(Role, f64)> {
        let mut shares: Vec<(Role, f64)> = Vec::new();
        for number in readings {
            let (Some(role), Some((_, share))) = (column.role(number), self.readings.get(number)) else { continue };
            match shares.iter_mut().find(|it| it.0 == role) {
                Some(known) => known.1 += share,
                None => shares.push((role, *share)),
            }
        }
        let all: f64 = shares.iter().map(|it| it.1).sum();
        for share in &mut shares {
            share.1 /= all.max(f64::MIN_POSITIVE);
        }
        shares.order_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
        shares
    }

    /// The classes into which the answers to some questions part the readings.
    pub(crate) fn classes(&self, questions: &[usize]) -> Vec<(Vec<Answer>, Vec<usize>)> {
        let mut classes: Vec<(Vec<Answer>, Vec<usize>)> = Vec::new();
        for (number, (answers, _)) in self.readings.iter().enumerate() {
            let key: Vec<Answer> = questions.iter().filter_map(|it| answers.get(*it).copied()).collect();
            match classes.iter_mut().find(|it| it.0 == key) {
                Some(class) => class.1.push(number),
                None => classes.push((key, vec![number])),
            }
        }
        classes
    }

    /// The share of some readings.
    pub(crate) fn share(&self, readings: &[usize]) -> f64 {
        readings.iter().filter_map(|it| self.readings.get(*it)).map(|it| it.1).sum()
    }

    /// How much the roles of a stretch move with the answer to one question, which parts the readings into classes.
    fn sway(&self, column: &Column, classes: &[Vec<usize>], roles: &[(Role, f64)]) -> f64 {
        let mut sway = 0.0;
        for readings in classes {
            let here = self.shares(column, readings.iter().copied());
            let of = |role: Role| here.iter().find(|it| it.0 == role).map_or(0.0, |it| it.1);
            let off: f64 = roles.iter().map(|(role, share)| (of(*role) - share).abs()).sum();
            sway += self.share(readings) * off;
        }
        sway
    }

    /// How far the roles are from settled, as the chance that two readings taken by their shares differ, over all stretches;
    /// for a part of the readings, taken by itself.
    pub(crate) fn open(&self, readings: &[usize]) -> f64 {
        let of = |column: &Column| {
            let shares = self.shares(column, readings.iter().copied());
            let differ = 1.0 - shares.iter().map(|it| it.1 * it.1).sum::<f64>();
            // A stretch about which nobody can say anything stays open in every reading.
            if differ < SAME { 0.0 } else { differ }
        };
        self.columns.iter().map(of).sum()
    }
}

/// The stretches of one wall; neighbours with the same role in every reading are one.
fn of_wall(wall: WallId, number: usize, length: f64, standing: &[&Reading]) -> Vec<Column> {
    let runs: Vec<&[(f64, f64, Role)]> =
        standing.iter().filter_map(|it| it.roles.get(number)).map(Vec::as_slice).collect();
    let mut stops: Vec<f64> = runs.iter().flat_map(|run| run.iter().flat_map(|it| [it.0, it.1])).collect();
    stops.extend([0.0, length]);
    stops.order_by(f64::total_cmp);
    stops.dedup_by(|b, a| *b - *a < SLIVER);
    let mut columns: Vec<Column> = Vec::new();
    for pair in stops.windows(2) {
        let [start, end] = *pair else { continue };
        let middle = (start + end) / 2.0;
        let role = |run: &&[(f64, f64, Role)]| {
            run.iter().find(|it| it.0 <= middle && middle <= it.1).map_or(Role::NeedsALook, |it| it.2)
        };
        let roles: Vec<Role> = runs.iter().map(role).collect();
        match columns.last_mut().filter(|last| last.roles == roles) {
            Some(last) => last.end = end,
            None => columns.push(Column { wall, start, end, roles }),
        }
    }
    if let Some(last) = columns.last_mut() {
        last.end = last.end.max(length);
    }
    columns
}

/// Answers none of whose readings stand, with the first reason.
pub(super) fn ruled_out(work: &LevelWork, standing: &[&Reading]) -> Vec<RuledOut> {
    let mut all: Vec<RuledOut> = Vec::new();
    for (number, unknown) in work.questions.iter().enumerate() {
        let stands = |answer: &Answer| standing.iter().any(|it| it.answers.get(number) == Some(answer));
        for reading in &work.readings {
            let (Some(answer), Some(why)) = (reading.answers.get(number), reading.why) else { continue };
            let known = all.iter().any(|it| (it.unknown, it.answer) == (*unknown, *answer));
            if !known && !stands(answer) {
                all.push(RuledOut { unknown: *unknown, answer: *answer, why });
            }
        }
    }
    all
}
