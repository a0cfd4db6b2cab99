//! The steps of a house, kept as whole plans: what was, what is, what was taken back.

use std::rc::Rc;

use joistwise_core::plan::Plan;

/// How many steps are kept.
const MOST: usize = 500;

/// A plan with the number it got when it was made: no two plans of a history share one, so that each is kept once.
#[derive(Clone, Debug)]
struct Step {
    number: u32,
    plan: Rc<Plan>,
}

/// Past, present and taken-back plans.
#[derive(Clone, Debug)]
pub struct History {
    past: Vec<Step>,
    now: Step,
    future: Vec<Step>,
    newest: u32,
}

impl History {
    /// A house without a past.
    #[must_use]
    pub fn new(plan: Plan) -> Self {
        Self::of(Vec::new(), plan, Vec::new())
    }

    /// A house with its past and the steps that were taken back, each the oldest first.
    #[must_use]
    pub fn of(past: Vec<Plan>, now: Plan, future: Vec<Plan>) -> Self {
        let mut numbers = 0..;
        let mut step = |plan: Plan| Step { number: numbers.next().unwrap_or_default(), plan: Rc::new(plan) };
        let past: Vec<Step> = past.into_iter().map(&mut step).collect();
        let now = step(now);
        let mut future: Vec<Step> = future.into_iter().map(&mut step).collect();
        let newest = future.last().unwrap_or(&now).number;
        // The next to be taken again is the last of the list.
        future.reverse();
        Self { past, now, future, newest }
    }

    /// The plan as it is.
    #[must_use]
    pub fn now(&self) -> &Plan {
        &self.now.plan
    }

    /// The number of the plan as it is.
    #[must_use]
    pub const fn number(&self) -> u32 {
        self.now.number
    }

    /// The numbers of all plans, the oldest first.
    #[must_use]
    pub fn numbers(&self) -> Vec<u32> {
        let steps = self.past.iter().chain([&self.now]).chain(self.future.iter().rev());
        steps.map(|step| step.number).collect()
    }

    /// A plan by its number.
    #[must_use]
    pub fn plan(&self, number: u32) -> Option<&Plan> {
        let mut steps = self.past.iter().chain([&self.now]).chain(&self.future);
        steps.find(|step| step.number == number).map(|step| &*step.plan)
    }

    /// How many steps can be taken back.
    #[must_use]
    pub fn steps(&self) -> usize {
        self.past.len()
    }

    /// Whether there is a step to take back.
    #[must_use]
    pub fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// Whether there is a step to take again.
    #[must_use]
    pub fn can_redo(&self) -> bool {
        !self.future.is_empty()
    }

    /// One step further.
    pub fn commit(&mut self, plan: Plan) {
        self.newest = self.newest.wrapping_add(1);
        let step = Step { number: self.newest, plan: Rc::new(plan) };
        self.past.push(core::mem::replace(&mut self.now, step));
        if self.past.len() > MOST {
            self.past.remove(0);
        }
        self.future.clear();
    }

    /// One step back; false if there is none.
    pub fn undo(&mut self) -> bool {
        let Some(step) = self.past.pop() else {
            return false;
        };
        self.future.push(core::mem::replace(&mut self.now, step));
        true
    }

    /// One step forward again; false if there is none.
    pub fn redo(&mut self) -> bool {
        let Some(step) = self.future.pop() else {
            return false;
        };
        self.past.push(core::mem::replace(&mut self.now, step));
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_step_taken_back_can_be_taken_again_until_another_is_taken() {
        let mut history = History::new(Plan::new("one"));
        history.commit(Plan::new("two"));
        assert!(history.undo() && !history.undo());
        assert_eq!(history.now().name(), "one");
        assert!(history.redo() && !history.redo());
        assert!(history.undo());
        history.commit(Plan::new("three"));
        assert!(!history.can_redo() && history.can_undo());
    }

    #[test]
    fn a_history_put_together_again_goes_back_and_forward_as_before() {
        let plans = |names: &[&str]| names.iter().map(|name| Plan::new(name)).collect::<Vec<_>>();
        let mut history = History::of(plans(&["one", "two"]), Plan::new("three"), plans(&["four", "five"]));
        let names = |history: &History| {
            let plan = |number| history.plan(number).map(|plan| plan.name().to_owned()).unwrap_or_default();
            history.numbers().into_iter().map(plan).collect::<Vec<_>>()
        };
        assert_eq!(names(&history), ["one", "two", "three", "four", "five"]);
        assert!(history.redo());
        assert_eq!((history.now().name(), history.number()), ("four", 3));
        assert!(history.undo() && history.undo() && history.undo() && !history.undo());
        assert_eq!(names(&history), ["one", "two", "three", "four", "five"]);
        let old = history.numbers();
        history.commit(Plan::new("six"));
        assert_eq!(names(&history), ["one", "six"]);
        assert!(!old.contains(&history.number()), "a number is never given twice");
    }
}
