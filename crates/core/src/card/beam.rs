//! The cards of a beam and of a post.

use super::{Card, Figure, Work};
use crate::ids::{BeamId, PostId};
use crate::loads::heaviest;
use crate::words;

impl Work<'_> {
    pub(super) fn beam(&self, id: BeamId) -> Option<Card> {
        let beam = self.trace.beam(id)?;
        let mut figures = self.widths(&beam.feeds);
        figures.extend(self.line_figure(&beam.line.iter().map(|part| part.loads).collect::<Vec<_>>()));
        figures.extend(beam.points.iter().map(|point| self.point_figure(point)));
        for rest in &beam.rests {
            figures.push(Figure {
                label: format!("To {} at {}", self.words.node(rest.on), self.words.length(rest.at)),
                value: words::pounds(heaviest(&rest.weights, self.plan.site()).0),
                how: self.made_up(&rest.weights, "lb"),
            });
        }
        let total = words::pounds(heaviest(&beam.top, self.plan.site()).0);
        let sentence = match beam.rests.len() {
            0 => "Nothing is drawn that holds this beam up.".to_owned(),
            n => format!("This beam carries {total} to {n} place{}.", if n == 1 { "" } else { "s" }),
        };
        let span = Figure {
            label: "Longest span".to_owned(),
            value: self.words.length(beam.longest_span),
            how: "between two supports of one piece".to_owned(),
        };
        figures.push(span);
        let sure = "Its own weight is not counted; supports are taken as rigid.".to_owned();
        Some(Card { sentence, sure, figures, ..Card::default() })
    }

    pub(super) fn post(&self, id: PostId) -> Option<Card> {
        let post = self.trace.post(id)?;
        let figures = post.from.iter().map(|(from, weights)| Figure {
            label: format!("From {}", self.words.node(*from)),
            value: words::pounds(heaviest(weights, self.plan.site()).0),
            how: self.made_up(weights, "lb"),
        });
        let total = heaviest(&post.top, self.plan.site()).0;
        let sentence = if total.0 > 0.5 {
            format!("This post holds {}.", words::pounds(total))
        } else {
            "Nothing drawn rests on this post.".to_owned()
        };
        let watch = post.cautions.iter().map(|caution| self.words.caution(caution)).collect();
        Some(Card { sentence, figures: figures.collect(), watch, ..Card::default() })
    }
}
