//! The card of a rim board, a row of blocking or a ledger.

use super::{Card, Figure, Work};
use crate::geometry;
use crate::ids::{BoardId, ElementId};
use crate::plan::{BoardKind, Element};
use crate::trace::Caution;
use crate::words::{self, capital};

impl Work<'_> {
    pub(super) fn board(&self, id: BoardId) -> Option<Card> {
        let Element::Board(board) = self.plan.element(ElementId::Board(id))? else { return None };
        let sentence = match board.kind {
            BoardKind::Rim => "It closes the ends of the joists and keeps them from turning.",
            BoardKind::Blocking => "It keeps the joists from turning, and takes what stands over it straight down.",
            BoardKind::Ledger => "Joists hang on it, and what they bring goes into the wall it is fixed to.",
        };
        let length = Figure {
            label: "Length".to_owned(),
            value: self.words.length(geometry::length(board.a, board.b)),
            how: "end to end".to_owned(),
        };
        let mut figures = vec![length];
        figures.extend(self.over_it(id));
        let mut watch = Vec::new();
        if board.kind == BoardKind::Ledger {
            let hangs = Caution::HangsOnLedger { board: id };
            let walls: Vec<String> = self
                .trace
                .walls
                .iter()
                .filter(|wall| wall.cautions.contains(&hangs))
                .map(|wall| self.words.name(ElementId::Wall(wall.wall)))
                .collect();
            watch.push(if walls.is_empty() {
                "No wall is drawn along it that could take what hangs on it.".to_owned()
            } else {
                format!(
                    "It is fixed to {}: into the rim or the studs by schedule, not into boards or veneer (IRC R507.9 for \
                     decks, from memory).",
                    walls.join(", ")
                )
            });
        }
        let sure = capital(&format!("what is known of it is {}.", words::grade(board.known)));
        Some(Card { sentence: sentence.to_owned(), sure, figures, watch, ..Card::default() })
    }

    /// What comes down through it, by the cautions that name it.
    fn over_it(&self, id: BoardId) -> Option<Figure> {
        let on = Caution::OnBlocking { board: id };
        let walls = self.trace.walls.iter().filter(|it| it.cautions.contains(&on)).map(|it| ElementId::Wall(it.wall));
        let posts = self.trace.posts.iter().filter(|it| it.cautions.contains(&on)).map(|it| ElementId::Post(it.post));
        let names: Vec<String> = walls.chain(posts).map(|part| self.words.name(part)).collect();
        (!names.is_empty()).then(|| Figure {
            label: "Under".to_owned(),
            value: names.join(", "),
            how: "what stands over it on the level above".to_owned(),
        })
    }
}
