//! The card of an opening in a wall: what comes down at each jamb, and the studs that hold it.

use super::{Card, Figure, Work};
use crate::ids::{ElementId, OpeningId};
use crate::loads::{Weights, heaviest};
use crate::members::jambs::{self, ACROSS_GRAIN, HEADER_WIDTH, Wanted};
use crate::plan::{Element, Jamb, Opening, Side};
use crate::words;

impl Work<'_> {
    pub(super) fn opening(&self, id: OpeningId) -> Option<Card> {
        let Element::Opening(opening) = self.plan.element(ElementId::Opening(id))? else { return None };
        let trace = self.trace.opening(id)?;
        let (_, wall) = self.plan.wall(opening.wall)?;
        let (mut figures, mut watch) = (Vec::new(), Vec::new());
        let jambs = [("first", trace.first, opening.first), ("second", trace.second, opening.second)];
        let kings = (wall.side == Side::Outside).then(|| jambs::kings(opening.width.feet())).flatten();
        for (which, weights, jamb) in jambs {
            figures.push(self.total(&format!("At its {which} jamb"), weights));
            let wanted = jambs::wanted(heaviest(&weights, self.plan.site()).0);
            figures.push(jacks(which, &wanted, &jamb));
            if let Some(kings) = kings {
                figures.push(king_studs(which, kings, &jamb));
            }
            watch.extend(too_few(which, &wanted, kings, &jamb));
        }
        let all: Weights = trace.first + trace.second;
        figures.extend(self.reduced(all.roof_live, &[]));
        let over = words::pounds(heaviest(&all, self.plan.site()).0);
        Some(Card {
            sentence: format!("What lands over it, {over}, goes to its two jambs."),
            sure: sure(&opening),
            figures,
            watch,
            ..Card::default()
        })
    }
}

fn sure(opening: &Opening) -> String {
    let counted = |jamb: &Jamb| jamb.jacks.is_some() && jamb.kings.is_some();
    let studs = if counted(&opening.first) && counted(&opening.second) {
        "Jacks and kings were counted at both jambs."
    } else {
        "Nobody counted all jacks and kings."
    };
    format!("{studs} What stands right on a jamb is not in these figures; the wall over it counts whole.")
}

fn jacks(which: &str, wanted: &Wanted, jamb: &Jamb) -> Figure {
    Figure {
        label: format!("Jacks at its {which} jamb"),
        value: against(wanted.jacks, jamb.jacks),
        how: format!(
            "bearing asks for {:.2} in: that load on a header {:.0} in wide, Fc-perp {:.0} psi ({}{}); one at the least \
             (IRC R602.7, from memory)",
            wanted.bearing.0,
            HEADER_WIDTH.0,
            ACROSS_GRAIN.value.0,
            ACROSS_GRAIN.source,
            words::from_memory(ACROSS_GRAIN.mark)
        ),
    }
}

fn king_studs(which: &str, kings: u32, jamb: &Jamb) -> Figure {
    Figure {
        label: format!("Kings at its {which} jamb"),
        value: against(kings, jamb.kings),
        how: "by the width of the opening, in an outside wall with studs 16 in apart (IRC R602.7.5, from memory)"
            .to_owned(),
    }
}

/// "3 wanted, 2 counted".
fn against(wanted: u32, counted: Option<u8>) -> String {
    counted.map_or_else(|| format!("{wanted} wanted, not counted"), |it| format!("{wanted} wanted, {it} counted"))
}

/// One sentence for a jamb with fewer studs than are asked for.
fn too_few(which: &str, wanted: &Wanted, kings: Option<u32>, jamb: &Jamb) -> Option<String> {
    let fewer = |what: &str, counted: Option<u8>, wanted: u32| {
        let counted = u32::from(counted?);
        (counted < wanted).then(|| format!("{counted} {what} where {wanted} are asked for"))
    };
    let short: Vec<String> = [
        fewer(if jamb.jacks == Some(1) { "jack" } else { "jacks" }, jamb.jacks, wanted.jacks),
        kings.and_then(|kings| fewer(if jamb.kings == Some(1) { "king" } else { "kings" }, jamb.kings, kings)),
    ]
    .into_iter()
    .flatten()
    .collect();
    (!short.is_empty()).then(|| format!("Its {which} jamb has {}: have it looked at.", short.join(", and ")))
}
