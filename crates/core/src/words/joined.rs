//! How pieces are joined: plies of beams, studs of packs, what steel rests on and is nailed to.

use super::take_out::{figure, fraction};
use crate::card::Figure;
use crate::plan::Set;
use crate::take_out::{Choice, Family, NoHeaders, PostMake, Posts, SteelSeat};
use crate::units::Feet;

/// Why the tables of headers name none.
pub(crate) fn no_headers(why: NoHeaders) -> Figure {
    let how = match why {
        NoHeaders::PointLoads => "more than joists, rafters and walls comes down here: the tables know no point loads",
        NoHeaders::RoofOnInsideWall => "an inside wall under a roof: the tables have none",
        NoHeaders::SnowNotStated => "their rows go by the ground snow load, and nobody stated it",
        NoHeaders::TwoFloors => {
            "a roof and two floors on an outside wall: the table has rows for it, which are missing here; look there or have it \
             designed"
        }
        NoHeaders::PastTheRows => "a house wider, or snow heavier, than their rows",
    };
    figure("Headers by the code's tables", "none named".to_owned(), format!("{how} (IRC Table R602.7)"))
}

/// Of all plies.
pub(super) const PLIES: &str = "Each ply is one piece from end to end, or ends over a post alone, no two plies over the same one; \
    plies are nailed or bolted to each other by the schedule beside each beam, or the maker's; one loaded from one side needs more.";

/// Sawn lumber longer than this has to be ordered (common practice).
const ORDERED: Feet = Feet(16.0);

/// How the plies of a beam are held to each other.
pub(super) fn plies(choice: &Choice, length: Feet) -> Vec<Figure> {
    let mut all = Vec::new();
    let (value, how) = match choice.family {
        Family::BuiltUp => (
            "20d common at 32 in, or 10d box at 24 in",
            "face nailed at top and bottom, staggered, from both sides; two at each end and splice (IRC Table R602.3(1), built-up \
             girders of 2 in lumber, from memory)",
        ),
        Family::Veneer => {
            ("by the maker's schedule", "rows and kind of fastener go by depth, plies and the side that is loaded")
        }
        Family::Glulam | Family::Steel => return all,
    };
    all.push(figure("Plies to each other", value.to_owned(), how.to_owned()));
    if choice.family == Family::BuiltUp && length > ORDERED {
        let how = "sawn pieces over 16 ft are ordered (common practice); shorter ones end over posts alone";
        all.push(figure("Longest piece", format!("{:.1} ft", length.0), how.to_owned()));
    }
    all
}

/// How studs of a pack are nailed, where one is among the choices.
pub(super) fn packs(posts: &Posts) -> Option<Figure> {
    posts.choices.iter().any(|it| it.make == PostMake::Studs).then(|| {
        let how = "all nails through every ply and 3/4 into the last, neighbours from opposite sides, in a row no further \
                   apart than six times a ply, 9 in; two rows where the face is over 4 1/2 in (NDS 15.3.3.1, from memory). Without \
                   that each stud is a column by itself";
        figure("Studs to each other", "nailed from both sides, 9 in apart at the most".to_owned(), how.to_owned())
    })
}

/// What a steel beam rests on, and what joists are nailed to.
pub(super) fn steel_seat(seat: &SteelSeat) -> Vec<Figure> {
    let plate = seat.along.map_or_else(
        || "a steel column with a cap plate".to_owned(),
        |along| format!("{} x {} x {} in of A36", fraction(along), fraction(seat.across), fraction(seat.thick)),
    );
    let how = "N = R / (Fc-perp B) on a plate of the species asked, 3 in at the least; t = n sqrt(2 x 1.67 R / (B N Fy)), n = B / 2 less \
               the flange (AISC Manual, Part 14, from memory); past 6 in no post of wood is long enough: a cap that is designed. The \
               beam is bolted or welded to it";
    let nailer = match seat.set {
        Set::Dropped => format!("{} flat on its upper flange", seat.nailer),
        Set::Flush => format!("{} flat on its upper flange, and its web packed out to the flanges", seat.nailer),
    };
    let bolts = "1/2 in bolts or welded studs, staggered, 24 in apart at the most, and joists nailed to it: that is what holds the flange \
                 sideways, as the checks take it (common practice); the drop counts its 1 1/2 in";
    vec![figure("Plate under its ends", plate, how.to_owned()), figure("Nailer", nailer, bolts.to_owned())]
}
