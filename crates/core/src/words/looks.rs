//! Readings and looks in words.

use super::{Words, capital, plf, role, way};
use crate::ids::ElementId;
use crate::looks::{How, Look, Outcome};
use crate::plan::Element;
use crate::readings::{Answer, Certainty, Contradiction, Judged, Range, RuledOut, TurnLine, Unknown, Why};
use crate::trace::{End, Role};

/// A share as people say it; never "100 %" of what is not all, never "0 %" of what is something.
#[must_use]
pub fn share(share: f64) -> String {
    let percent = share * 100.0;
    if share >= 1.0 - 1e-9 {
        "all".to_owned()
    } else if percent > 99.0 {
        "over 99 %".to_owned()
    } else if percent < 1.0 {
        "under 1 %".to_owned()
    } else {
        format!("{percent:.0} %")
    }
}

impl Words<'_> {
    /// A question nobody has settled, as part of a sentence.
    #[must_use]
    pub fn unknown(&self, unknown: Unknown) -> String {
        match unknown {
            Unknown::Overhead(id) => format!("what lies over {}", self.level(id).to_lowercase()),
            Unknown::Direction(_) | Unknown::Ceiling(_) => "which way the joists run".to_owned(),
            Unknown::Size(_) => "how deep the joists are".to_owned(),
            Unknown::Turn(_) => "where the joists turn".to_owned(),
            Unknown::RoofOver(_) | Unknown::Frame(_) => "how the roof is framed".to_owned(),
            Unknown::Wall(id) => format!("how {} meets what is over it", self.called(ElementId::Wall(id))),
            Unknown::Struts(id) => format!("whether struts stand on {}", self.called(ElementId::Wall(id))),
            Unknown::Under(end) => format!("what is below {}", self.end_of(end)),
        }
    }

    /// What comes down in one place, inside a sentence: "the west end of beam 7".
    pub(super) fn end_of(&self, end: End) -> String {
        match end {
            End::Ridge(..) => "an end of the ridge beam".to_owned(),
            End::Post(id) => self.called(ElementId::Post(id)),
            End::Beam(id, end) => {
                let of = self.called(ElementId::Beam(id));
                match self.plan.element(ElementId::Beam(id)) {
                    Some(Element::Beam(beam)) => {
                        let side = super::survey::side((beam.a, beam.b), end).to_lowercase();
                        format!("the {side} end of {of}")
                    }
                    _ => of,
                }
            }
        }
    }

    /// A name inside a sentence: one's own as it is, others without their capital.
    fn called(&self, part: ElementId) -> String {
        let name = self.name(part);
        match self.plan.element(part) {
            Some(Element::Wall(wall)) if !wall.name.is_empty() => name,
            Some(Element::Beam(beam)) if !beam.name.is_empty() => name,
            Some(Element::Post(post)) if !post.name.is_empty() => name,
            _ => format!("{}{}", name.get(..1).unwrap_or_default().to_lowercase(), name.get(1..).unwrap_or_default()),
        }
    }

    /// An answer as something that can be seen.
    #[must_use]
    pub fn answer(&self, answer: Answer) -> String {
        match answer {
            Answer::AsDrawn => "as it is drawn".to_owned(),
            Answer::None => "the question does not arise".to_owned(),
            Answer::Joists(along) => format!("joists run {}", way(along)),
            Answer::TurnsAt(_) => "joists run one way here and another way there".to_owned(),
            Answer::TwoBy(depth) => format!("joists 2x{depth}"),
            Answer::OtherJoists => "I-joists, or of another kind".to_owned(),
            Answer::Trusses => "trusses with metal plates, webs whole".to_owned(),
            Answer::AlteredTrusses => "trusses built on the site, or cut".to_owned(),
            Answer::Board => "rafters on a ridge board, tied".to_owned(),
            Answer::RidgeBeam => "rafters on a ridge beam".to_owned(),
            Answer::Lap => "joists lap, meet or end over it".to_owned(),
            Answer::Tight => "joists run through and sit on it".to_owned(),
            Answer::Clear => "joists run through, clear of it".to_owned(),
            Answer::Along => "joists run along it, on both faces, all along".to_owned(),
            Answer::TurnsLeft | Answer::TurnsRight => "on one face joists turn and end on it".to_owned(),
            Answer::Passes => "trusses pass over it, no tag".to_owned(),
            Answer::Bears => "a tag says that trusses bear on it".to_owned(),
            Answer::BeamOver => "a girder truss or a beam over it takes what would land".to_owned(),
            Answer::Struts => "struts from the roof stand on it".to_owned(),
            Answer::NoStruts => "no strut stands on it".to_owned(),
            Answer::InWall => "a pack of studs in the wall under it".to_owned(),
            Answer::OnPost => "a post of its own under it".to_owned(),
            Answer::NotUnder => "nothing right under it".to_owned(),
        }
    }

    /// What one outcome of a look is, as a button says it.
    #[must_use]
    pub fn outcome(&self, outcome: &Outcome) -> String {
        let said = outcome.answers.iter().filter(|it| !matches!(it.1, Answer::None | Answer::AsDrawn));
        let mut words: Vec<String> = Vec::new();
        for (unknown, answer) in said {
            let which = match unknown {
                Unknown::Direction(id)
                    if outcome.answers.iter().filter(|it| matches!(it.0, Unknown::Direction(_))).count() > 1 =>
                {
                    format!("{}: ", self.field(*id))
                }
                _ => String::new(),
            };
            words.push(format!("{which}{}", self.answer(*answer)));
        }
        capital(&words.join("; "))
    }

    /// What an outcome would settle: "Centre wall carries ceiling".
    #[must_use]
    pub fn means(&self, outcome: &Outcome) -> String {
        let mut words: Vec<String> = Vec::new();
        for (wall, judged) in &outcome.means {
            let what = match judged {
                Role::NothingFound => "nothing found that lands on it",
                other => role(*other),
            };
            let line = format!("{}: {what}", self.name(ElementId::Wall(*wall)));
            if !words.contains(&line) {
                words.push(line);
            }
        }
        if words.is_empty() { "Settles nothing by itself".to_owned() } else { words.join("; ") }
    }

    /// A look's name and what to look for.
    #[must_use]
    pub fn look(&self, look: &Look) -> (String, String) {
        let wall = look.wall.map(|wall| self.called(ElementId::Wall(wall))).unwrap_or_default();
        match look.how {
            How::Hatch => (
                format!("Through the hatch over {}", self.level(look.level).to_lowercase()),
                "Joists or trusses, which way they run, a thin ridge board or a deep beam, metal plates, tags, cut webs.".to_owned(),
            ),
            How::AlongPlate => (
                format!("Along the top plate of {wall}"),
                "From above, both faces, all of its length: ends or laps, a gap, a tag, struts from the roof.".to_owned(),
            ),
            How::Measure => (
                "Measure a joist".to_owned(),
                "Its depth and thickness: how far it reaches tells whether a wall is needed under it.".to_owned(),
            ),
            How::LiftBoard => (
                "Lift a board, or look up from below".to_owned(),
                "Which way the joists run, their size, how far apart.".to_owned(),
            ),
            How::UnderEnd => {
                let end = look.about.iter().find_map(|it| match it {
                    Unknown::Under(end) => Some(self.end_of(*end)),
                    _ => None,
                });
                (
                    format!("Find what is below {}", end.unwrap_or_default()),
                    "Open the wall right under it, or look up from the floor below: a pack of studs, a post, or nothing."
                        .to_owned(),
                )
            }
            How::SmallHole => (
                format!("A small hole at the top of {wall}, on both faces"),
                "Whether joists lap or end over it, sit on it, run along it or pass clear of it. One hole shows one place: look \
                 along from it, or make more. Wires and pipes first."
                    .to_owned(),
            ),
        }
    }

    /// How sure a stretch is: "likely (82 % of what fits): hangs on which way the joists run".
    #[must_use]
    pub fn certainty(&self, judged: &Judged) -> String {
        let hangs: Vec<String> = judged.hangs_on.iter().take(2).map(|it| self.unknown(*it)).collect();
        let hangs = if hangs.is_empty() { String::new() } else { format!(": hangs on {}", hangs.join(", and on ")) };
        match judged.certainty {
            Certainty::Certain => "certain: the same in all that fits what was seen".to_owned(),
            // That it bears is settled: only what it bears is not.
            Certainty::Likely | Certainty::NeedsALook if judged.bears_in_all => {
                let part = share(judged.roles.first().map_or(0.0, |it| it.1));
                let most = format!("most likely it {} ({part})", role(judged.role()));
                format!("bears in all that fits what was seen; what lands on it is open, {most}{hangs}")
            }
            Certainty::Likely => {
                let part = judged.roles.first().map_or(0.0, |it| it.1);
                format!("likely ({} of what fits){hangs}", share(part))
            }
            Certainty::NeedsALook => format!("needs a look (bears in {} of what fits){hangs}", share(judged.bearing())),
        }
    }

    /// A line on which joists may turn: "on wall 7", or half way between the places where they were seen.
    #[must_use]
    pub fn turn_line(&self, line: &TurnLine) -> String {
        match line.wall {
            Some(wall) => format!("On {}", self.called(ElementId::Wall(wall))),
            None => "Half way between".to_owned(),
        }
    }

    /// Facts side by side that cannot all be true.
    #[must_use]
    pub fn contradiction(&self, contradiction: &Contradiction) -> String {
        let one = |id: &crate::ids::ObservationId| match self.plan.element(ElementId::Observation(*id)) {
            Some(Element::Observation(it)) => {
                format!("\u{201c}{}\u{201d} ({})", self.saw(&it.saw), super::grade(it.known))
            }
            _ => String::new(),
        };
        let seen: Vec<String> = contradiction.seen.iter().map(one).collect();
        match seen.as_slice() {
            [alone] => format!("{alone} does not fit what is drawn there as seen: look again."),
            _ => format!("These cannot all be true: {}. Look again.", seen.join(" against ")),
        }
    }

    /// An answer that was ruled out, with the check that did it.
    #[must_use]
    pub fn ruled_out(&self, it: &RuledOut) -> String {
        let of = capital(&self.unknown(it.unknown));
        let answer = self.answer(it.answer);
        match it.why {
            Why::TooLong { field, span, reach } => format!(
                "{of}: not \u{201c}{answer}\u{201d}, since {} would then span {}, and no published table goes past {}.",
                self.field(field),
                self.length(span),
                self.length(reach)
            ),
            Why::Unsupported => format!("{of}: not \u{201c}{answer}\u{201d}, since joists would end on nothing."),
        }
    }

    /// The line load over all readings: "180 to 420 plf in what fits".
    #[must_use]
    pub fn range(&self, range: &Range) -> Option<String> {
        let differ = range.most.0 - range.least.0 > 0.5;
        differ.then(|| format!("{} to {}", plf(range.least), plf(range.most)))
    }
}
