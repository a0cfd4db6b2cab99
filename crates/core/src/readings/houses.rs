//! The readings that stand, each of which can be built as a house of its own. Knows nothing of what is asked of these houses.

use super::house::turned;
use super::{Answer, Likeliest, Readings, Unknown, house_of};
use crate::ids::{LevelId, WallId};
use crate::plan::Plan;
use crate::trace::OpenEnd;
use crate::units::Plf;

/// Answers to questions of a house.
pub(crate) type Answers = Vec<(Unknown, Answer)>;

/// The readings of a house, level by level from the top.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Houses {
    base: Plan,
    ends: Vec<OpenEnd>,
    likeliest: Vec<(LevelId, Answers)>,
    levels: Vec<LevelHouses>,
}

/// The readings of one level that stand.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct LevelHouses {
    /// Which.
    pub(crate) level: LevelId,
    /// What is asked of it.
    questions: Vec<Unknown>,
    /// One answer to each question.
    readings: Vec<Vec<Answer>>,
    /// Whether every answer about each wall is among them under every way of framing.
    pub(crate) complete: bool,
}

impl LevelHouses {
    /// The answers of each reading.
    pub(crate) fn answers(&self) -> impl Iterator<Item = Answers> + '_ {
        self.readings.iter().map(|it| self.questions.iter().copied().zip(it.iter().copied()).collect())
    }
}

impl Houses {
    pub(super) fn of(readings: &Readings) -> Self {
        let of_level = |work: &super::level::LevelWork| LevelHouses {
            level: work.level,
            questions: work.questions.clone(),
            readings: work.standing().iter().map(|it| it.answers.clone()).collect(),
            complete: work.complete,
        };
        Self {
            base: readings.base.clone(),
            ends: readings.ends.clone(),
            likeliest: readings.likeliest.clone(),
            levels: readings.levels.iter().map(of_level).collect(),
        }
    }

    /// The levels, from the top.
    pub(crate) fn levels(&self) -> &[LevelHouses] {
        &self.levels
    }

    /// How many readings stand, over all levels.
    #[must_use]
    pub fn count(&self) -> usize {
        self.levels.iter().map(|it| it.readings.len()).sum()
    }

    /// Those of some answers that are not the same in every reading of their level.
    pub(crate) fn open_of(&self, answers: &[(Unknown, Answer)]) -> Answers {
        let differs = |unknown: &Unknown| {
            self.levels.iter().any(|level| {
                let Some(number) = level.questions.iter().position(|it| it == unknown) else { return false };
                let mut given = level.readings.iter().filter_map(|it| it.get(number));
                let first = given.next();
                given.any(|it| Some(it) != first)
            })
        };
        answers.iter().filter(|it| it.1 != Answer::None && differs(&it.0)).copied().collect()
    }

    /// What would land on each foot of a wall beside which joists turn by these answers; none where they do not. No house draws it.
    pub(crate) fn turned(&self, house: &Plan, wall: WallId, answers: &[(Unknown, Answer)]) -> Option<Plf> {
        let left = match answers.iter().find(|it| it.0 == Unknown::Wall(wall))?.1 {
            Answer::TurnsLeft => true,
            Answer::TurnsRight => false,
            _ => return None,
        };
        turned(house.wall(wall)?.0, wall, left).map(|it| it.1)
    }

    /// The house in which some questions are answered so, and all others as is likeliest.
    pub(crate) fn house(&self, answers: Answers) -> Plan {
        let likeliest: &Likeliest = &self.likeliest;
        house_of(&self.base, &self.ends, likeliest, answers)
    }
}
