//! Line loads over all that fits: what a wall gets hangs on its own level, and on what the levels above bring down.
//!
//! The readings of each level were traced with the others at their likeliest. Where those above move the load of a wall too,
//! the lightest of each level are traced together, and the heaviest of each: two traces more for a wall.

use super::level::{LevelWork, Reading};
use super::{Answer, Range, Readings, Unknown, house_of};
use crate::ids::WallId;
use crate::trace::trace;
use crate::units::Plf;

/// Loads that differ by less are one, in plf.
const SAME: f64 = 1e-6;

/// Two readings of a level: that in which a wall gets least, and that in which it gets most, each with the load.
type Ends<'a> = [(f64, &'a Reading); 2];

impl Readings {
    /// The ranges of the walls of one level.
    pub(super) fn ranges(&self, number: usize, standing: &[&Reading]) -> Vec<Range> {
        let Some(work) = self.levels.get(number) else { return Vec::new() };
        let above: Vec<(&LevelWork, Vec<&Reading>)> =
            self.levels.iter().take(number).map(|work| (work, work.standing())).collect();
        let range = |(place, wall): (usize, &WallId)| {
            let own = ends(standing, |it| it.plf.get(place).copied())?;
            let mut all = vec![(work, own)];
            for (upper, readings) in &above {
                let at = upper.lower.iter().position(|it| it == wall);
                let theirs = at.and_then(|at| ends(readings, |it| it.lower.get(at).copied()));
                all.extend(theirs.filter(|[least, most]| most.0 - least.0 > SAME).map(|it| (*upper, it)));
            }
            let [least, most] = [0, 1].map(|end| self.together(work, *wall, &all, end));
            Some(Range { wall: *wall, least: Plf(least), most: Plf(most) })
        };
        work.walls.iter().enumerate().filter_map(range).collect()
    }

    /// The lightest or heaviest load of a wall: alone on its level, by each level above, and by all of these at once.
    fn together(&self, work: &LevelWork, wall: WallId, all: &[(&LevelWork, Ends<'_>)], end: usize) -> f64 {
        let picked = || all.iter().filter_map(|(of, ends)| ends.get(end).map(|it| (*of, it.0, it.1)));
        let mut loads: Vec<f64> = picked().map(|it| it.1).collect();
        if loads.len() > 1 {
            let mut answers: Vec<(Unknown, Answer)> = Vec::new();
            for (of, _, reading) in picked() {
                for answer in of.questions.iter().copied().zip(reading.answers.iter().copied()) {
                    if answers.iter().all(|known| known.0 != answer.0) {
                        answers.push(answer);
                    }
                }
            }
            let house = house_of(&self.base, &self.ends, &self.likeliest, answers);
            let own = picked().next().map(|it| it.2.answers.as_slice()).unwrap_or_default();
            loads.push(work.plf(&house, &trace(&house), own, wall));
        }
        let farthest = if end == 0 { f64::min } else { f64::max };
        loads.into_iter().reduce(farthest).unwrap_or_default()
    }
}

/// The readings in which a wall gets least and most.
fn ends<'a>(readings: &[&'a Reading], load: impl Fn(&Reading) -> Option<f64>) -> Option<Ends<'a>> {
    let loads = || readings.iter().filter_map(|it| load(it).map(|load| (load, *it)));
    let least = loads().reduce(|a, b| if b.0 < a.0 { b } else { a })?;
    let most = loads().reduce(|a, b| if b.0 > a.0 { b } else { a })?;
    Some([least, most])
}
