//! The card of an inside wall as all readings together say it. What is said of sureness comes from the judgement alone: the
//! headline says "probably" until everything about the wall is settled, and one sentence says how sure that is.

use super::Card;
use crate::ids::WallId;
use crate::plan::{Plan, Side};
use crate::readings::{Certainty, Judged, Judgement};
use crate::tape::Tape;
use crate::trace::Role;
use crate::units::Feet;
use crate::words::{self, Words, capital};

const OPEN: &str = "Not settled yet: until somebody looks, this wall counts as bearing.";

/// How sure all of a wall is: as its least sure stretch. None for what no reading judges.
#[must_use]
pub fn sureness(judgement: &Judgement, wall: WallId) -> Option<Certainty> {
    judgement.of_wall(wall).map(|it| it.certainty).max()
}

impl Card {
    /// Tells the card of a wall what all readings say of it; none while they are being traced. Cards of outside walls stay as
    /// they are.
    pub fn judge(&mut self, plan: &Plan, judgement: Option<&Judgement>, id: WallId, tape: Tape) {
        if plan.wall(id).is_none_or(|(_, wall)| wall.side != Side::Inside) {
            return;
        }
        let Some(judgement) = judgement else {
            if let Some(carries) = self.sentence.strip_prefix("This wall ") {
                self.sentence = format!("As it is drawn, this wall {carries}");
            } else {
                OPEN.clone_into(&mut self.sentence);
            }
            "How sure that is, is being worked out.".clone_into(&mut self.sure);
            return;
        };
        let words = Words::new(plan, tape);
        let stretches: Vec<&Judged> = judgement.of_wall(id).collect();
        let Some(sure) = sureness(judgement, id) else { return };
        if sure != Certainty::Certain {
            self.sentence = unsettled(&words, &stretches);
        }
        self.sure = match stretches.as_slice() {
            [one] => format!("{}.", capital(&words.certainty(one))),
            many => {
                let settled: Feet = of(many, |it| it.certainty == Certainty::Certain);
                let all: Feet = of(many, |_| true);
                if sure == Certainty::Certain {
                    "Certain all along: the same in all that fits what was seen.".to_owned()
                } else if settled > Feet(0.02) {
                    format!("Certain on {} of its {}, the rest is open.", words.length(settled), words.length(all))
                } else {
                    let most = many.iter().max_by(|a, b| (a.end - a.start).total_cmp(&(b.end - b.start)));
                    most.map(|it| format!("Most of it {}.", words.certainty(it))).unwrap_or_default()
                }
            }
        };
    }
}

fn of(stretches: &[&Judged], which: impl Fn(&Judged) -> bool) -> Feet {
    stretches.iter().filter(|it| which(it)).map(|it| it.end - it.start).fold(Feet::ZERO, |sum, it| sum + it)
}

/// The headline of a wall that is not settled.
fn unsettled(words: &Words<'_>, stretches: &[&Judged]) -> String {
    let all = of(stretches, |_| true);
    let bears = |it: &Judged| it.bears_in_all;
    let long = |roles: &[Role]| of(stretches, |it| roles.contains(&it.shown()));
    let kinds = [Role::CarriesRoof, Role::CarriesFloor, Role::CarriesCeiling, Role::HoldsPoint];
    let most = kinds.into_iter().max_by(|a, b| long(&[*a]).total_cmp(&long(&[*b])).then(b.cmp(a)));
    let what = match most {
        Some(Role::CarriesRoof) => "carries the roof",
        Some(Role::CarriesFloor) => "carries the floor",
        Some(Role::CarriesCeiling) => "carries the ceiling",
        other => other.map(words::role).unwrap_or_default(),
    };
    let carries = long(&kinds);
    let part = |run: Feet| {
        if all - run < Feet(0.02) {
            String::new()
        } else {
            format!(" on {} of its {}", words.length(run), words.length(all))
        }
    };
    if stretches.iter().all(|it| bears(it)) {
        return format!("This wall bears. What lands on it is not settled: probably it {what}.");
    }
    if carries > Feet(0.02) {
        let rest = if all - carries < Feet(0.02) { "" } else { "; the rest counts as bearing until somebody looks" };
        return format!("This wall probably {what}{}{rest}.", part(carries));
    }
    let nothing = stretches.iter().all(|it| it.role() == Role::NothingFound && it.certainty <= Certainty::Likely);
    if nothing {
        return "Probably nothing lands on this wall: until somebody looks, it counts as bearing.".to_owned();
    }
    OPEN.to_owned()
}
