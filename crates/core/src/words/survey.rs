//! The survey in words: its stops, what to look at or measure, the answers.

use super::{Words, grade, used_as};
use crate::ids::{ElementId, WallId};
use crate::plan::{Built, LevelKind, Point, Saw, StepKey, Task, WallEnd};
use crate::survey::{Reply, State, Stop};
use crate::tape;

impl Words<'_> {
    /// A stop of the walk.
    #[must_use]
    pub fn stop(&self, stop: Stop) -> String {
        let wall = |id: WallId| self.name(ElementId::Wall(id));
        match stop {
            Stop::Ask => "Ask first".to_owned(),
            Stop::Outside => "Outside".to_owned(),
            Stop::Lowest(id) => match self.plan.level(id).map(|level| level.kind) {
                Some(LevelKind::Storey | LevelKind::Attic) => format!("Under {}", self.level(id).to_lowercase()),
                _ => self.level(id),
            },
            Stop::Storey(id) => self.level(id),
            Stop::Attic(id) => format!("Over {}, under the roof", self.level(id).to_lowercase()),
            Stop::Wall(id) => wall(id),
            Stop::Ends(id) => format!("Under each end of {}", wall(id)),
        }
    }

    /// A step in a few words, and what to look at or measure.
    #[must_use]
    pub fn step(&self, key: StepKey) -> (String, &'static str) {
        let (title, how) = task(key.task);
        let title = match (key.task, key.wall, key.end) {
            (Task::Stands, Some(wall), Some(end)) => {
                let below = key.level.and_then(|id| self.plan.level_below(id));
                let below = below.map(|level| level.name.to_lowercase()).unwrap_or_default();
                format!("{} end: in the {below}", self.end(wall, end))
            }
            (Task::Ground, Some(wall), Some(end)) => format!("{} end: in the ground", self.end(wall, end)),
            _ => title.to_owned(),
        };
        (title, how)
    }

    /// "West": the side an end of a wall is on.
    fn end(&self, wall: WallId, end: WallEnd) -> &'static str {
        self.plan.wall(wall).map_or("One", |(_, wall)| side((wall.a, wall.b), end))
    }

    /// An answer to a step, as a button says it.
    #[must_use]
    pub fn reply(&self, of: Task, reply: &Reply) -> String {
        match *reply {
            Reply::Done => done(of).to_owned(),
            Reply::Nothing => nothing(of).to_owned(),
            Reply::NotSeen => "Not seen today".to_owned(),
            Reply::Open => "Take it back".to_owned(),
            Reply::Saw(Saw::InLine { below }) => self.below(below).to_owned(),
            Reply::Saw(Saw::Sag { by }) => format!("Sags {} in", tape::in_fraction(by)),
            Reply::Saw(saw) => self.saw(&saw),
            Reply::Length(rise) if of == Task::Rise => format!("{} in 12", tape::in_fraction(rise)),
            Reply::Length(length) if of == Task::Height => tape::print(length, self.tape),
            Reply::Length(length) => self.short(length),
            Reply::Outline(length, width) => {
                format!("{} x {}", tape::print(length, self.tape), tape::print(width, self.tape))
            }
            Reply::Use(it) => super::capital(used_as(it)),
            Reply::Under(LevelKind::CrawlSpace) => "A crawl space".to_owned(),
            Reply::Under(LevelKind::Basement) => "A basement".to_owned(),
            Reply::Under(LevelKind::Storey | LevelKind::Attic) => "A storey".to_owned(),
            Reply::Built(Built::WithTheHouse) => "With the house".to_owned(),
            Reply::Built(Built::Later) => "Later".to_owned(),
        }
    }

    /// What the plan says of a step; nothing of an open one.
    #[must_use]
    pub fn answered(&self, of: Task, state: &State) -> String {
        match state {
            State::Open => String::new(),
            State::NotSeen => "not seen today".to_owned(),
            State::Drawn => "drawn".to_owned(),
            State::Answered { reply, known: Some(known) } => format!("{} ({})", self.reply(of, reply), grade(*known)),
            State::Answered { reply, known: None } => format!("{} (as drawn)", self.reply(of, reply)),
        }
    }
}

/// "West": the side of one end of a line.
pub(super) fn side((a, b): (Point, Point), end: WallEnd) -> &'static str {
    let (own, other) = if end == WallEnd::A { (a, b) } else { (b, a) };
    let (east, north) = ((own.x - other.x).feet().0, (own.y - other.y).feet().0);
    if east.abs() >= north.abs() {
        if east < 0.0 { "West" } else { "East" }
    } else if north < 0.0 {
        "South"
    } else {
        "North"
    }
}

/// A task in a few words, and what to look at or measure.
const fn task(task: Task) -> (&'static str, &'static str) {
    match task {
        Task::Year => ("Year it was built", "Ask, or look at the meter, the tank lid, the window glass."),
        Task::Altered => {
            ("What was altered", "Walls taken out, rooms added, who did it. Note each with Seen, at its place.")
        }
        Task::Drawings => ("Drawings", "Ask owner and building department. What was built may differ."),
        Task::Stored => ("Stored in the attic", "Boxes, a floor laid, a tank: ask, and look when you are up there."),
        Task::Wanted => ("What is wanted open", "Which wall, how wide. Choose it on the sheet before you go on."),
        Task::Photos => ("Photos", "Front first, then right, rear, left; roof and soffits."),
        Task::Outline => ("Around the house", "Length x width, outside to outside, walking the same way round."),
        Task::OutsideThickness => {
            ("Outside walls, thick", "At a door or window: face to face, both coverings counted.")
        }
        Task::Rise => ("Roof, rise in 12", "Level held on the rake: inches up at 12 along. Each plane."),
        Task::Eaves => ("Eaves stand out", "From the wall's face to the end of the rafters, level."),
        Task::OutsideSigns => {
            ("Cracks, bulges, a ridge that sags", "Sight along ridge, eaves and walls. Note each with Seen.")
        }
        Task::Under => ("What is under this floor", "A hatch, vents in the foundation, stairs down."),
        Task::Girders => ("Girders", "Their lines and sizes, where each piece ends."),
        Task::Posts => ("Posts under them", "Where each stands, how far apart, what it is and its size."),
        Task::Pads => ("Pads", "Where one can be seen: its sides, how thick. Beside a post a little digging shows it."),
        Task::Damage => ("Rot, insects, fire", "A knife in sills, girder ends and posts. Write down where."),
        Task::Rooms => ("Inside walls", "All from one corner, a tape along each side."),
        Task::Doors => ("Doors and passages", "Where they are in their walls, how wide."),
        Task::Height => ("Floor to ceiling", "In the middle and at the wall."),
        Task::JoistWay => {
            ("Which way the joists run", "Seen from below or through the hatch; rows of nails are a hint.")
        }
        Task::JoistSize => ("Their size, how far apart", "Tape on one joist, and from one centre to the next."),
        Task::Stairs => ("Stairs and chimneys", "Openings in the floor over this level."),
        Task::Heavy => ("Tubs, stoves, tanks", "What stands on this floor and weighs more than people."),
        Task::Signs => {
            ("Sags, cracks, doors that stick", "A ball on the floor, a string at the ceiling. Note each with Seen.")
        }
        Task::FixPoints => ("Points to go by", "Hatch, chimney, vent pipe, lights: they tell which wall is below you."),
        Task::Framing => {
            ("How the roof is framed", "Trusses, or rafters: on a thin board or a deep beam at the ridge.")
        }
        Task::Webs => ("Webs of the trusses", "Every one, along the whole attic."),
        Task::Ties => ("Rafters tied at their feet", "Each pair, by a joist or a tie nailed to both."),
        Task::Purlins => ("Purlins and struts", "What holds rafters half way up, and where its struts stand."),
        Task::Thickness => ("Thick", "At a door frame, both faces counted."),
        Task::Built => ("When it was built", "With the house or later: its base, its plaster, its nails."),
        Task::Over => ("What is over it", "Along its top plate, from above or through a hole, both faces."),
        Task::Struts => ("Struts on it", "From purlin, hip or ridge, along all of it."),
        Task::Studs => ("Where its studs end", "At a plate under the floor, or running on past it."),
        Task::Packs => ("Packs of studs", "Knock and listen, or a magnet on the nails. Note each with Seen."),
        Task::Headers => ("Over its doors", "A hole above the casing, or how deep the wall sounds."),
        Task::Sag => ("A sag over it", "String along the ceiling on both sides; how far off in the middle."),
        Task::Movement => ("Cracks, doors that stick", "At this wall: over its doors, in the ceiling beside it."),
        Task::Paper => ("What the drawing says of it", "How it was meant. What was built has to be looked at."),
        Task::Services => ("Wires, pipes, ducts", "Outlets, switches, what is over and under it in line."),
        Task::Coatings => ("Old paint, old boards", "Lead and asbestos: have them tested before the wall is opened."),
        Task::Hole => ("A hole to look through", "Only where nothing else shows it. Wires and pipes first."),
        Task::Stands => {
            ("Under this end", "A post for the new beam would stand here: what is in line with it, one level down?")
        }
        Task::Ground => ("In the ground", "A pad, a footing, a thicker slab in line with this end."),
    }
}

/// A tick as a button says it.
const fn done(task: Task) -> &'static str {
    match task {
        Task::Altered | Task::Services | Task::Damage => "Some, noted",
        Task::OutsideSigns | Task::Signs | Task::Packs => "Seen, noted",
        Task::Drawings => "There are some",
        Task::Wanted => "Told",
        Task::Photos => "Taken",
        Task::Under => "Slab on the ground",
        Task::Rooms | Task::Doors | Task::Stairs | Task::Heavy | Task::Girders | Task::Posts | Task::Purlins => {
            "All drawn"
        }
        Task::Pads | Task::Ground => "There is one",
        Task::Webs => "All whole",
        Task::Ties => "All tied",
        Task::Studs => "At each floor",
        Task::Coatings => "Tested",
        _ => "Done",
    }
}

/// Nothing of the kind, as a button says it.
const fn nothing(task: Task) -> &'static str {
    match task {
        Task::Altered => "Nothing, they say",
        Task::Drawings => "None to be had",
        Task::Hole => "Not needed",
        Task::Paper => "Nothing, or no drawing",
        Task::Stands => "Nothing stands there",
        Task::Sag => "No sag",
        _ => "None here",
    }
}
