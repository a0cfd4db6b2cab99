//! The cards of a beam and of a post.

use super::workers::from_roofs;
use super::{Card, Figure, Work};
use crate::ids::{BeamId, ElementId, PostId};
use crate::loads::{Weights, heaviest};
use crate::members::bearing;
use crate::members::jambs::ACROSS_GRAIN;
use crate::plan::{Element, Make, Material};
use crate::take_out::of_post;
use crate::trace::{BeamTrace, Node, PostTrace, Rest};
use crate::units::{Feet, Inches};
use crate::words;

/// A beam that rests this near its end ends there.
const POCKET: Feet = Feet(1.0);

impl Work<'_> {
    pub(super) fn beam(&self, id: BeamId) -> Option<Card> {
        let beam = self.trace.beam(id)?;
        let mut figures = self.widths(&beam.feeds);
        figures.extend(self.line_figure(&beam.line.iter().map(|part| part.loads).collect::<Vec<_>>()));
        figures.extend(beam.points.iter().map(|point| self.point_figure(point)));
        for rest in &beam.rests {
            let label = format!("To {} at {}", self.words.node(rest.on), self.words.length(rest.at));
            figures.push(self.total(&label, rest.weights));
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
        figures.extend(self.reduced(beam.top.roof_live, &from_roofs(&beam.feeds)));
        let sure = "Its own weight is not counted; supports are taken as rigid.".to_owned();
        let watch = beam.rests.iter().filter_map(|rest| self.pocket(beam, rest)).collect();
        Some(Card { sentence, sure, figures, watch, ..Card::default() })
    }

    /// What an end wants that rests in a wall of masonry or concrete.
    fn pocket(&self, beam: &BeamTrace, rest: &Rest) -> Option<String> {
        let Node::Wall(wall) = rest.on else { return None };
        let make = match self.plan.wall(wall)?.1.make {
            Make::Stud => return None,
            Make::Masonry => "masonry",
            Make::Concrete => "concrete",
        };
        let at_end = rest.at.0 < POCKET.0 || rest.at.0 > beam.length.0 - POCKET.0;
        let Element::Beam(plan) = self.plan.element(ElementId::Beam(beam.beam))? else { return None };
        let (member, reaction) = (plan.member, heaviest(&rest.weights, self.plan.site()).0);
        let crushing = match (member.material, member.width()) {
            (Material::Steel, _) => String::new(),
            (Material::Sawn, Some(width)) => {
                let width = Inches(width.inches()) * f64::from(member.plies);
                let needed = bearing::length_needed(reaction, width, ACROSS_GRAIN.value);
                format!(
                    " Its {} crush no wood on {:.2} in (on a width of {} in, Fc-perp {:.0} psi: {}{}).",
                    words::pounds(reaction),
                    needed.0,
                    width.0,
                    ACROSS_GRAIN.value.0,
                    ACROSS_GRAIN.source,
                    words::from_memory(ACROSS_GRAIN.mark)
                )
            }
            _ => format!(" Whether {} crush it there, its width and its wood say.", words::pounds(reaction)),
        };
        let air = match member.material {
            Material::Steel => "",
            _ => {
                " If its wood is untreated it wants 1/2 in of air at its top, sides and end (IRC R317.1, from memory)."
            }
        };
        at_end.then(|| {
            format!(
                "At {} it ends in {}, of {make}: {:.0} in of bearing at the least (IRC R502.6).{crushing}{air}",
                self.words.length(rest.at),
                self.words.node(rest.on),
                bearing::LEAST_ON_MASONRY.0
            )
        })
    }

    /// What a post whose size was seen may carry, of its own wood.
    fn column(&self, post: &PostTrace) -> Option<Figure> {
        let Element::Post(plan) = self.plan.element(ElementId::Post(post.post))? else { return None };
        let height = Inches(self.plan.level(post.level)?.height.inches());
        let column = of_post(&plan, height, &post.top, self.plan.site()).ok()?;
        let of = format!("{} {}", plan.member, words::strength::of(plan.member, &plan.wood));
        let (value, how) = (words::pounds(column.carries), self.words.column_how(&column, &of));
        Some(Figure { label: "May carry".to_owned(), value, how })
    }

    pub(super) fn post(&self, id: PostId) -> Option<Card> {
        let post = self.trace.post(id)?;
        let from =
            |(from, weights): &(Node, Weights)| self.total(&format!("From {}", self.words.node(*from)), *weights);
        let figures = post.from.iter().map(from).chain(self.reduced(post.top.roof_live, &[])).chain(self.column(post));
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
