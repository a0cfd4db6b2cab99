//! What is said of the strength of what stands: of which wood, how much of it is used, and why nobody knows.

use super::Words;
use super::take_out::{figure, species, stock};
use crate::card::Figure;
use crate::ids::ElementId;
use crate::plan::{Material, Member, Wood};
use crate::strength::factors::{Incising, Moisture, Stress};
use crate::strength::unstamped::{SOURCE, least};
use crate::take_out::is_timber;
use crate::trace::Node;

/// The wood that a part is taken for.
pub(crate) fn of(member: Member, wood: &Wood) -> String {
    let what = match (member.material, wood.stock) {
        (Material::Lvl, _) => "of the least grade of laminated veneer".to_owned(),
        _ if is_timber(member) => "least of No. 2 posts and timbers, NDS Supplement Table 4D, from memory".to_owned(),
        (_, Some(by)) => stock(by),
        (_, None) => "without a stamp".to_owned(),
    };
    let wet = if wood.moisture == Moisture::Wet { ", wet" } else { "" };
    let incised = if wood.incising == Incising::Incised { ", incised" } else { "" };
    format!("{what}{wet}{incised}")
}

/// What an unstamped piece of sawn lumber is taken for; nothing for one whose stamp was read.
pub(crate) fn taken_for(member: Member, wood: &Wood) -> Option<Figure> {
    let how = unstamped(member).filter(|_| wood.stock.is_none())?;
    Some(figure("Its wood", "least of No. 2".to_owned(), how))
}

/// Which value an unstamped piece is taken to have, and of which group: "Fb 800 psi (southern pine), ...".
fn unstamped(member: Member) -> Option<String> {
    let names = |of| match of {
        Stress::Bending => Some("Fb"),
        Stress::Shear => Some("Fv"),
        Stress::AcrossGrain => Some("Fc-perp"),
        Stress::AlongGrain => Some("Fc"),
        Stress::Modulus => Some("E"),
        Stress::Tension => None,
    };
    let one = |it: &crate::strength::unstamped::Least| {
        let name = names(it.of)?;
        Some(format!("{name} {} psi ({})", super::thousands(it.value.0), species(it.species)))
    };
    let all: Vec<String> = least(member)?.iter().filter_map(one).collect();
    Some(format!("nobody read a stamp: {}; {SOURCE}, in part from memory", all.join(", ")))
}

impl Words<'_> {
    /// The wood of what a node stands for.
    pub(crate) fn wood_at(&self, node: Node) -> Wood {
        let part = match node {
            Node::Field(id) => ElementId::Field(id),
            Node::Beam(id) => ElementId::Beam(id),
            Node::Post(id) => ElementId::Post(id),
            Node::Roof(id) => ElementId::Roof(id),
            _ => return Wood::default(),
        };
        self.plan.wood_of(part)
    }
}
