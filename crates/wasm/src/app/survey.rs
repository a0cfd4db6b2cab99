//! The survey as the panel shows it: stages and steps in words, what each takes, what was said.

use joistwise_core::ids::{ElementId, WallId};
use joistwise_core::plan::{Side, StepKey, Task};
use joistwise_core::survey::{DrawWith, Reply, State, Step, Stop, Typed, answer, place, read, survey};
use joistwise_core::words::Words;
use serde::{Deserialize, Serialize};

use super::App;

/// What somebody says of a step.
#[derive(Clone, Debug, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Said {
    /// One of its answers, by its number.
    Tap(usize),
    /// A typed one.
    Text(String),
    /// Not to be seen today.
    NotSeen,
    /// Nothing after all.
    Open,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
pub(super) struct StageLine {
    stop: Stop,
    title: String,
    settled: usize,
    steps: Vec<StepLine>,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
struct StepLine {
    /// What the page calls it.
    key: String,
    task: Task,
    title: String,
    how: &'static str,
    open: bool,
    not_seen: bool,
    said: String,
    replies: Vec<ReplyLine>,
    typed: Option<Typed>,
    draw: Option<DrawWith>,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
struct ReplyLine {
    text: String,
    said: bool,
}

/// A step as the page calls it.
fn name(key: StepKey) -> String {
    serde_json::to_string(&key).unwrap_or_default()
}

fn line(words: &Words<'_>, step: &Step) -> StepLine {
    let (title, how) = words.step(step.key);
    let task = step.key.task;
    let said = |reply: &Reply| matches!(&step.state, State::Answered { reply: it, .. } if it == reply);
    let reply = |reply: &Reply| ReplyLine { text: words.reply(task, reply), said: said(reply) };
    StepLine {
        key: name(step.key),
        task,
        title,
        how,
        open: step.state == State::Open,
        not_seen: step.state == State::NotSeen,
        said: words.answered(task, &step.state),
        replies: step.replies.iter().map(reply).collect(),
        typed: step.typed,
        draw: step.draw,
    }
}

impl App {
    /// The survey, while its panel is open.
    pub(super) fn survey_lines(&self) -> Option<Vec<StageLine>> {
        let chosen = self.surveying?;
        let words = Words::new(self.plan(), self.view.tape);
        let stages = survey(self.plan(), chosen).stages;
        let stage = |stage: &joistwise_core::survey::Stage| StageLine {
            stop: stage.stop,
            title: words.stop(stage.stop),
            settled: stage.settled(),
            steps: stage.steps.iter().map(|step| line(&words, step)).collect(),
        };
        Some(stages.iter().map(stage).collect())
    }

    /// Opens the survey with the chosen wall first, or closes it.
    pub(super) fn walk(&mut self, open: bool) {
        let chosen = match self.view.chosen {
            Some(ElementId::Wall(id)) => Some(id).filter(|id| self.is_inside(*id)),
            _ => None,
        };
        self.surveying = open.then_some(chosen);
    }

    fn step_named(&self, called: &str) -> Option<Step> {
        let steps = survey(self.plan(), self.surveying?).stages.into_iter().flat_map(|stage| stage.steps);
        steps.into_iter().find(|step| name(step.key) == called)
    }

    fn is_inside(&self, id: WallId) -> bool {
        self.plan().wall(id).is_some_and(|(_, wall)| wall.side == Side::Inside)
    }

    /// Brings the place of a step onto the sheet.
    pub(super) fn walk_to(&mut self, name: &str) {
        let Some(Step { key, .. }) = self.step_named(name) else { return };
        let Some((level, at)) = place(self.plan(), key) else { return };
        match key.wall {
            Some(wall) => self.choose(Some(ElementId::Wall(wall))),
            None if key.level.is_some() && level != self.view.level => self.show_level(level),
            None => {}
        }
        if key.end.is_some() {
            self.bring_in(at.into(), at.into());
        }
    }

    /// Takes what was said of a step.
    pub(super) fn walked(&mut self, name: &str, said: Said, day: &str) -> Result<(), String> {
        let Some(step) = self.step_named(name) else { return Ok(()) };
        let key = step.key;
        let reply = match said {
            Said::Tap(number) => step.replies.get(number).copied(),
            Said::Text(text) => {
                step.typed.map(|typed| read(typed, &text)).transpose().map_err(|error| error.to_string())?
            }
            Said::NotSeen => Some(Reply::NotSeen),
            Said::Open => Some(Reply::Open),
        };
        let Some(reply) = reply else { return Ok(()) };
        let before = self.plan().levels().iter().all(|level| level.element_ids().is_empty());
        let plan = answer(self.plan(), key, reply, day).map_err(|error| error.to_string())?;
        if plan != *self.plan() {
            self.take(plan);
            if before {
                self.fit();
            }
        }
        Ok(())
    }
}
