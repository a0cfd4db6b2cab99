//! The order of work and the refusals of a take-out study, in words.

use super::{Words, pounds};
use crate::ids::ElementId;
use crate::take_out::{About, Away, IJoistAt, OpenUp, Work};

/// Of a stretch on which nothing lands.
pub(crate) const NOTHING_LANDS: &str =
    "Nothing drawn lands on this stretch. Look for a pack of studs in it before it is cut.";

impl Words<'_> {
    /// What a study cannot judge, or asks.
    pub(crate) fn refusal(&self, about: &About) -> String {
        match *about {
            About::Trusses { .. } => {
                "No size here: no chord and no web of a truss may be cut, and one that was altered or built \
                on the site is for its designer and an engineer."
                    .to_owned()
            }
            About::TrussSeat { .. } => {
                "No size here: trusses bear on this stretch between their ends. Only the engineer of the truss maker says \
                 where a truss may bear, and what it brings there."
                    .to_owned()
            }
            About::IJoists { field, at } => {
                let joists = self.name(ElementId::Field(field));
                match at {
                    IJoistAt::PostFoot => format!(
                        "A new post comes down on {joists}: squash blocks under its whole foot, and web stiffeners, by the \
                         details of the maker of these I-joists. A web carries no post."
                    ),
                    IJoistAt::OverBeam => format!(
                        "What stands above presses through {joists} onto the new beam: squash blocks beside each web there, \
                         by the details of the maker of these I-joists."
                    ),
                    IJoistAt::Hangers => format!(
                        "{joists} are hung on the faces of the beam: hangers made for I-joists, and web stiffeners in them, \
                         by the details of both makers."
                    ),
                }
            }
            About::HipOrValley { .. } => {
                "No size here: a hip or a valley lands here, or may; what it brings is for an \
                engineer."
                    .to_owned()
            }
            About::Masonry { wall } => {
                format!(
                    "No size here: {} is masonry or concrete; what carries it is designed.",
                    self.name(ElementId::Wall(wall))
                )
            }
            About::Cantilever { field } => {
                format!(
                    "No size here: {} run past the line and end in the air; their back span is designed.",
                    self.name(ElementId::Field(field))
                )
            }
            About::Distress { seen } => {
                format!(
                    "No size here until somebody has looked into it: {} was recorded.",
                    self.name(ElementId::Observation(seen)).to_lowercase()
                )
            }
            About::BeyondTables { span } => {
                format!(
                    "No size here: a span of {} is designed, not picked from a table. A shorter stretch, or posts between, may have one.",
                    self.length(span)
                )
            }
            About::NotFollowed { node } => format!(
                "No size here: {} stands here, and would not come to a beam drawn in its place; what takes it is designed.",
                self.node(node)
            ),
            About::RestFalls { beam } => format!(
                "No size here: what is left of {} past the new beam would not rest on two supports. Take it out to its end, or \
                 hold it first.",
                self.name(ElementId::Beam(beam))
            ),
            About::PressesOn { node } => format!(
                "A beam along this line would also press on {}: sizes here do not count on it, but the paths below the posts do. \
                 Leave a gap over it.",
                self.node(node)
            ),
            About::NothingLands => "No size here: nothing drawn lands on the stretch.".to_owned(),
            About::NonePasses => "None of the sizes here passes every check: a post between, or a design.".to_owned(),
            About::SoilNotStated => {
                "No size of a pad here: what the soil bears is not stated. A figure on 1,500 psf, the least that the code \
                 presumes (IRC Table R401.4.1), is shown for talking only."
                    .to_owned()
            }
            About::NotSettled { range: Some((least, most)) } => format!(
                "What lands here is not settled: {} to {} over all that fits what was seen. Everything here is sized for the \
                 heaviest of it.",
                pounds(least),
                pounds(most)
            ),
            About::NotSettled { range: None } => {
                "What rests here is not settled, or hangs on what was only told or \
                assumed: it counts as bearing, and the figures are for what is drawn."
                    .to_owned()
            }
            About::SeenNotDrawn { seen } => format!(
                "No size here: \u{201c}{}\u{201d} was seen on this stretch, and nobody drew what it holds. Draw that, and study it again.",
                self.name(ElementId::Observation(seen))
            ),
            About::PostHoldsUnknown { post } => format!(
                "No size here: {} stands in this stretch, and nothing drawn comes down on it. Find out what it holds, and draw that.",
                self.name(ElementId::Post(post))
            ),
            About::MayTurn { wall } => format!(
                "No size here: joists may turn beside {} and end on it. Look along both of its faces first.",
                self.name(ElementId::Wall(wall))
            ),
            About::BracingOpen { wall } => format!(
                "No size here: {} is an outside wall, and outside walls brace the house against wind. Ask an engineer or the \
                 building department what braces it instead, and note who answered on the card of the wall.",
                self.name(ElementId::Wall(wall))
            ),
            About::StudsRunOn => {
                "Its studs run on past the floor above: props under the joists hold the floor alone; the studs \
                above the cut are held as well."
                    .to_owned()
            }
            About::OnTopOrHung => {
                "Do the joists lie on the old beam, or hang on its sides? Those that hang need hangers on the new one."
                    .to_owned()
            }
            About::Bracing => {
                "Does a wall on this line brace the house against wind? That is a question of its own, always asked: an \
                engineer or the building desk answers it."
                    .to_owned()
            }
        }
    }

    /// A step of work and its reason.
    pub(crate) fn work(&self, work: &Work, away: Away, bare: bool) -> (String, String) {
        let posts = matches!(away, Away::Posts(_));
        let year = |built: Option<u16>| {
            built.map_or_else(
                || "nobody said when the house was built".to_owned(),
                |year| format!("the house is of {year}"),
            )
        };
        let (text, why) = match *work {
            Work::PropNow => (
                "Hold up what sags now, with props from the ground up.",
                "what is over the line may reach too far with nothing under it".to_owned(),
            ),
            Work::Engineer => (
                "A licensed engineer confirms or changes every size.",
                "these are sizes to talk and budget with".to_owned(),
            ),
            Work::StopHere => (
                "Stop here: an engineer answers what is said above. Nothing is cut, propped or sized before.",
                "something that this study cannot judge, or that nobody has looked at, holds or may hold the house up"
                    .to_owned(),
            ),
            Work::Bracing => (
                "Ask an engineer or the building department whether this wall braces the house, and note who answered.",
                "a wall that carries nothing may still keep the house from leaning in the wind".to_owned(),
            ),
            Work::Permit => (
                "Permit, with both ends of the beam drawn down to the soil.",
                "the desk asks for every floor below".to_owned(),
            ),
            Work::Services => (
                "Find wires, pipes and ducts along the line, over it and under the posts; shut them off.",
                "found late they stop the work with the house on props".to_owned(),
            ),
            Work::Lead { built } => (
                "Test paint for lead before any dust is made.",
                format!("{}: paint of before 1978 may hold it", year(built)),
            ),
            Work::Asbestos { built } => (
                "Test plaster, boards and insulation for asbestos.",
                format!("{}: what was built up to 1980 is taken to hold it", year(built)),
            ),
            Work::Unload => {
                ("Empty the rooms and the attic above.", "props then carry less than they are counted for".to_owned())
            }
            Work::Open { what } => match what {
                OpenUp::Ceiling => {
                    ("Open the ceiling on both sides of the line.", "hangers go on both faces of the beam".to_owned())
                }
                OpenUp::WallAtPosts => {
                    ("Open the wall at each post.", "the post stands in it, fastened at head and foot".to_owned())
                }
                OpenUp::FloorAtPosts => (
                    "Open the floor or the ceiling below at each post.",
                    "blocks between floor and support carry the post through".to_owned(),
                ),
                OpenUp::Slab => ("Cut the slab for each new pad.", "a slab is no footing".to_owned()),
                OpenUp::Ground => ("Dig for each new pad.", "bare ground or a loose block is no footing".to_owned()),
            },
            Work::Shore => (
                "Props as shown, from the ground up, tight but not lifting.",
                "no joist may be without a seat for a moment".to_owned(),
            ),
            Work::Tie => (
                "Tie the rafters across above the cut.",
                "a beam between the joists cuts what holds the eaves together".to_owned(),
            ),
            Work::Pads => (
                "Pour new pads, and set the posts below, before anything is cut.",
                "concrete has to harden before it is loaded".to_owned(),
            ),
            Work::Blocks => (
                "Solid blocks on the way of each post, storey by storey.",
                "a post on boards alone sinks between the joists".to_owned(),
            ),
            Work::Squash => (
                "Squash blocks and web stiffeners where a post or wall presses on I-joists, by their maker's details.",
                "a web buckles where it is pressed from above".to_owned(),
            ),
            Work::Strengthen => (
                "Strengthen what becomes overloaded below.",
                "the new posts bring more to one place than came there".to_owned(),
            ),
            Work::Posts if posts => (
                "Set new posts, plumb, held at head and foot; those that stay are made fit for more.",
                "the beam needs its seats before anything is cut".to_owned(),
            ),
            Work::Posts => (
                "Set the posts, plumb, held at head and foot.",
                "the beam needs its seats before anything is cut".to_owned(),
            ),
            Work::Cut if posts => (
                "Cut the old beam over the posts that hold the new one; take the piece and its posts out.",
                "only now are they without load".to_owned(),
            ),
            Work::Cut if bare => (
                "Take out the stretch.",
                "in every reading of the house that fits what was seen, nothing lands on it".to_owned(),
            ),
            Work::Cut => {
                ("Cut the line and take out the stretch.", "only now do the props hold what it held".to_owned())
            }
            Work::Beam => ("Beam in, plies joined, on its full seats.", "a short seat crushes".to_owned()),
            Work::Hangers => (
                "Every hanger on, every nail in, before a prop goes.",
                "nails into end grain do not hold a joist".to_owned(),
            ),
            Work::Inspect => (
                "Framing inspection before it is closed.",
                "seats, hangers and blocks cannot be seen afterwards".to_owned(),
            ),
            Work::Lower => ("Props out slowly, from the middle.", "the house settles onto the beam".to_owned()),
            Work::Measure => (
                "Measure the sag from a dated mark, now and each month.",
                "cracks may show for a while; sag that goes on is a sign of trouble".to_owned(),
            ),
        };
        (text.to_owned(), why)
    }
}
