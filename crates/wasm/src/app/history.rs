//! The steps of a house, kept as whole plans: what was, what is, what was taken back.

use std::rc::Rc;

use joistwise_core::plan::Plan;

/// How many steps are kept.
const MOST: usize = 500;

/// Past, present and taken-back plans.
#[derive(Clone, Debug)]
pub struct History {
    past: Vec<Rc<Plan>>,
    now: Rc<Plan>,
    future: Vec<Rc<Plan>>,
}

impl History {
    /// A house without a past.
    #[must_use]
    pub fn new(plan: Plan) -> Self {
        Self { past: Vec::new(), now: Rc::new(plan), future: Vec::new() }
    }

    /// The plan as it is.
    #[must_use]
    pub fn now(&self) -> &Plan {
        &self.now
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
        self.past.push(core::mem::replace(&mut self.now, Rc::new(plan)));
        if self.past.len() > MOST {
            self.past.remove(0);
        }
        self.future.clear();
    }

    /// One step back; false if there is none.
    pub fn undo(&mut self) -> bool {
        let Some(plan) = self.past.pop() else {
            return false;
        };
        self.future.push(core::mem::replace(&mut self.now, plan));
        true
    }

    /// One step forward again; false if there is none.
    pub fn redo(&mut self) -> bool {
        let Some(plan) = self.future.pop() else {
            return false;
        };
        self.past.push(core::mem::replace(&mut self.now, plan));
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
}
