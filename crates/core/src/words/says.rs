//! The sentences of reasons, cautions and findings. One each; nothing is searched in them.

use super::{Words, capital, grade, pounds, psf, soil, square_feet};
use crate::footing;
use crate::ids::{BeamId, ElementId};
use crate::loads::heaviest;
use crate::plan::{Element, Material, RoofFrame};
use crate::trace::{Caution, Finding, Problem, Reason};
use crate::units::Feet;

impl Words<'_> {
    /// A reason as a sentence.
    #[must_use]
    pub fn reason(&self, reason: &Reason) -> String {
        let name = |part| self.name(part);
        match *reason {
            Reason::OutsideWall => "It is an outside wall: it counts as bearing, and as bracing.".to_owned(),
            Reason::JoistsLapOver { field } => capital(&format!("{} lap over it.", self.field(field))),
            Reason::JoistsEndOn { field } => capital(&format!("{} end on it.", self.field(field))),
            Reason::JoistsPassOver { field } => {
                capital(&format!("{} run through over it and bear on it.", self.field(field)))
            }
            Reason::JoistsCross { field } => {
                capital(&format!("{} cross it; nobody looked whether they lap.", self.field(field)))
            }
            Reason::RoofStandsOn { roof } => format!("The feet of the {} stand on it.", self.roof_members(roof)),
            Reason::RaftersLeanOn { roof } => {
                format!("The {} lean on it between eave and ridge: it stands up to them.", self.roof_members(roof))
            }
            Reason::StrutsStandOn { .. } => "Struts under a purlin stand on it: it carries roof.".to_owned(),
            Reason::RidgeRestsOn { at, .. } => {
                format!("The ridge beam of the roof rests on it at {}.", self.length(at))
            }
            Reason::HipRestsOn { at, .. } => format!("A hip rafter rests on it at {}.", self.length(at)),
            Reason::ValleyRestsOn { at, .. } => format!("A valley rafter rests on it at {}.", self.length(at)),
            Reason::WallStandsOn { upper, offset } if offset.0 < 0.01 => {
                format!("{} stands on it, in line.", name(ElementId::Wall(upper)))
            }
            Reason::WallStandsOn { upper, offset } => {
                format!("{} stands on it, {} off its line.", name(ElementId::Wall(upper)), self.length(offset))
            }
            Reason::WallNearStandsOn { upper, offset } => format!(
                "{} stands on the joists {} away: this wall gets a share of it.",
                name(ElementId::Wall(upper)),
                self.length(offset)
            ),
            Reason::BeamLiesOn { beam } => format!("{} lies along its top.", name(ElementId::Beam(beam))),
            Reason::BeamRestsOn { beam, at } => {
                format!("{} rests on it at {}.", name(ElementId::Beam(beam)), self.length(at))
            }
            Reason::PostStandsOn { post, at } => {
                format!("{} above stands on it at {}.", name(ElementId::Post(post)), self.length(at))
            }
            Reason::TrimmerRestsOn { opening, at } => format!(
                "A trimmer of {} rests on it at {}.",
                name(ElementId::FloorOpening(opening)).to_lowercase(),
                self.length(at)
            ),
            Reason::JoistsRunAlong { field } => capital(&format!("{} run along it.", self.field(field))),
            Reason::TrussesPassOver { .. } => {
                "Trusses with metal plates pass over it: they are made to bear at their ends.".to_owned()
            }
            Reason::RoofGoesToEaves { roof } => super::strength::goes_past(self.plan, roof).to_owned(),
            Reason::GapSeen => "A gap was seen between it and what is over it, along its whole length.".to_owned(),
            Reason::LookedAlong => {
                "Looked at along its whole top plate, from both faces: nothing lands on it.".to_owned()
            }
            Reason::NothingInAny => "However it may be framed that fits what was seen, nothing lands on it.".to_owned(),
            Reason::FactsDisagree => "What was seen here does not fit together: look again.".to_owned(),
            Reason::SeenToCarry { seen } => match self.plan.element(ElementId::Observation(seen)) {
                Some(Element::Observation(it)) => {
                    format!("{}: it carries, though nothing drawn lands there.", self.saw(&it.saw))
                }
                _ => "Something was seen on it that carries.".to_owned(),
            },
            Reason::NothingStatedOverhead => "Nobody has said yet what is overhead.".to_owned(),
            Reason::DirectionNotSeen { field, known } => {
                capital(&format!("the way {} run is only {}.", self.field(field), grade(known)))
            }
            Reason::RoofFrameNotSeen { .. } => "Nobody has seen how the roof is framed.".to_owned(),
            Reason::TrussesSiteBuilt { .. } => {
                "The trusses are site built: nobody can say where they were meant to bear.".to_owned()
            }
            Reason::TrussWebCut { .. } => "A truss web is cut: the trusses may lean on what is under them.".to_owned(),
            Reason::TrussesBearInside { .. } => {
                "A tag or drawing says that the trusses bear inside the house too.".to_owned()
            }
            Reason::TrussesNotLookedAt { .. } => "Nobody has looked at the plates of the trusses.".to_owned(),
            Reason::HipMayLeanOn { .. } => {
                "Hips meet over it and nothing drawn holds them: a brace may come down on it.".to_owned()
            }
            Reason::ValleyMayLeanOn { .. } => {
                "Valleys meet over it and nothing drawn holds them: a brace may come down on it.".to_owned()
            }
            Reason::PurlinMayLeanOn { .. } => {
                "A purlin runs near it, and nobody saw on what its struts stand.".to_owned()
            }
            Reason::RidgeMayLeanOn { .. } => {
                "The roof is too flat for a ridge board: what is under the ridge may hold it.".to_owned()
            }
            Reason::EndMayStandOn { end } => {
                format!("Nothing is drawn under {}: it may stand on this wall.", self.end_of(end))
            }
            Reason::StrutsPressOn { .. } => {
                "Struts under a purlin stand on the joists: this wall gets a share of the roof.".to_owned()
            }
            Reason::BuiltLater => {
                "It was built later: what runs through over it stood without it, and may lean on it by now.".to_owned()
            }
            Reason::StudPackIn { at, .. } => {
                format!("Studs are packed together in it at {}: that marks a load in one place.", self.length(at))
            }
            Reason::InsideMasonry => "It is a masonry wall inside the house: those are treated as bearing.".to_owned(),
            Reason::JoistsEndNear { field } => {
                capital(&format!("{} cross here, and none was found to land on it.", self.field(field)))
            }
        }
    }

    fn roof_members(&self, roof: crate::ids::RoofId) -> &'static str {
        match self.plan.element(ElementId::Roof(roof)) {
            Some(Element::Roof(it)) if matches!(it.frame, RoofFrame::Trusses { .. }) => "trusses",
            _ => "rafters",
        }
    }

    /// How the fact behind a reason is known; empty if it is simply drawn.
    #[must_use]
    pub fn known(&self, reason: &Reason) -> &'static str {
        let field = |id| match self.plan.element(ElementId::Field(id)) {
            Some(Element::Field(field)) => grade(field.known),
            _ => "",
        };
        let roof = |id| match self.plan.element(ElementId::Roof(id)) {
            Some(Element::Roof(roof)) => grade(roof.known),
            _ => "",
        };
        match *reason {
            Reason::JoistsLapOver { field: id }
            | Reason::JoistsEndOn { field: id }
            | Reason::JoistsPassOver { field: id }
            | Reason::JoistsCross { field: id }
            | Reason::JoistsRunAlong { field: id } => field(id),
            Reason::RoofStandsOn { roof: id }
            | Reason::RaftersLeanOn { roof: id }
            | Reason::TrussesPassOver { roof: id }
            | Reason::RoofGoesToEaves { roof: id } => roof(id),
            Reason::StrutsStandOn { purlin } => match self.plan.element(ElementId::Purlin(purlin)) {
                Some(Element::Purlin(purlin)) => grade(purlin.known),
                _ => "",
            },
            Reason::GapSeen | Reason::LookedAlong | Reason::SeenToCarry { .. } => "seen",
            _ => "",
        }
    }

    /// A caution as a sentence or two.
    #[must_use]
    pub fn caution(&self, caution: &Caution) -> String {
        match *caution {
            Caution::TiesCutIfFlush { .. } => {
                "The ceiling joists over it tie the rafters. A beam set between them cuts \
                                               the ties: they have to be joined across it."
                    .to_owned()
            }
            Caution::EndsNeedPath => "Whatever replaces it brings its load to two ends: each needs a path down to a \
                                      pier or pad."
                .to_owned(),
            Caution::OffsetOverJoistDepth { offset, depth, .. } => format!(
                "It stands {} off the support below, and the joists are {} deep: more than the joist depth has to be \
                 designed (IRC R502.4).",
                self.length(offset),
                self.length(depth)
            ),
            Caution::OffsetOnIJoists { offset, .. } => format!(
                "It stands {} off the support below on I-joists: any offset on I-joists has to be designed, with \
                 blocking under the wall.",
                self.length(offset)
            ),
            Caution::TrussesMaySettle { .. } => "If this wall was there before the roof was loaded, the trusses may \
                                                 rest on it and come down a little when it goes."
                .to_owned(),
            Caution::DoNotCutTrusses { .. } => "No chord and no web of a truss may be cut.".to_owned(),
            Caution::ParallelRuleMisleads => "Joists run along it on one side, and it carries all the same: running \
                                              along a wall proves nothing by itself."
                .to_owned(),
            Caution::KeepOrReplaceCornerPost { .. } => {
                "It holds the corner of the opening in the deck: it stays, or a \
                                                        column takes its place with the deck held up meanwhile."
                    .to_owned()
            }
            Caution::GuardAtOpenSide { .. } => "It stands beside an opening in the deck: once it is low or gone, the \
                                                open side needs a guard."
                .to_owned(),
            Caution::BeamBelowIsNoProof { beam } => format!(
                "{} lies under its line. That is no proof of load from above: the beam is there for the floor.",
                self.name(ElementId::Beam(beam))
            ),
            Caution::CheckBothSides => "Look along both sides, over its whole length: joists may turn.".to_owned(),
            Caution::MayBrace => "It may brace the house against wind and earthquake, whatever it carries: that is a \
                                  question of its own, for the engineer."
                .to_owned(),
            Caution::RoofOnInsideWall => "Roof and snow come down on it, inside the house.".to_owned(),
            Caution::StrutsNeedSupport { .. } => {
                "Struts of a purlin stand on it: each strut over the stretch that goes \
                                                  needs another support first."
                    .to_owned()
            }
            Caution::RoofOnJoists => "It carries roof and snow onto floor joists that may never have been given \
                                             that load: pitch, size and span decide, and somebody has to check."
                .to_owned(),
            Caution::StorageOnTies { .. } => {
                "Goods are stored on ceiling joists that tie the rafters. Nobody can say that a ceiling was meant for it: \
                 find out what lies up there before you believe any figure."
                    .to_owned()
            }
            Caution::TrussDrawing => "What trusses bring to a bearing inside the house stands on their drawing; traced as \
                                      one piece over all its bearings."
                .to_owned(),
            Caution::LaterWall => "It was built later and was not meant to carry. What is over it may have settled onto \
                                   it since: watch it come down as the wall goes."
                .to_owned(),
            Caution::StudsRunOn => {
                "Its studs run on past the floor. Cut, they let go of the wall and the roof above: propping the joists \
                 alone does not hold those. Hold the studs above the cut as well, by a second prop wall upstairs right \
                 over the first, or a ledger fixed across them with braces to it."
                    .to_owned()
            }
            Caution::RidgeNeedsPost { at, .. } => format!(
                "The ridge beam rests on it at {}: a post stands in it there, and its path goes on to the foundation.",
                self.length(at)
            ),
            Caution::StudPack { .. } => {
                "A pack of studs stands in it. Find out what lands on the pack before anything is cut: a half wall does \
                 not carry, because what is above would have nothing to stand on."
                    .to_owned()
            }
            Caution::PostOverBeam { beam } => format!(
                "It stands over a beam, {}: solid blocks go between the floor and the beam.",
                self.name(ElementId::Beam(beam))
            ),
            Caution::BetweenSupports { beam } => format!(
                "It comes down on {} between two supports of that beam, which has to be checked with it.",
                self.name(ElementId::Beam(beam))
            ),
            Caution::PostOnJoists => "It stands on joists, with no wall, beam or post under it: it needs a footing of its \
                                      own, or members that carry it to a beam."
                .to_owned(),
            Caution::PostOnCantilever { field } => {
                format!("It stands on {} past their last support.", self.field(field))
            }
            Caution::CheckCrushing => {
                "What it stands on is wood, pressed across its grain: the bearing has to be checked.".to_owned()
            }
            Caution::FillBlocks => "If it is of blocks, their cells are filled under the post.".to_owned(),
            Caution::AlongJoists { field } => capital(&format!(
                "it stands along {}, with nothing in line below: the joists under it are doubled, or sized for it (IRC \
                 R502.4).",
                self.field(field)
            )),
            Caution::StandsOnJoists { field } => capital(&format!(
                "it stands on {} between their supports, with nothing in line below.",
                self.field(field)
            )),
            Caution::FloorDipExpected => "Expect a dip in the floor along it.".to_owned(),
            Caution::BeamPocket { beam, at } => self.pocket(beam, at),
            Caution::SquashBlocks { field } => format!(
                "It comes down through {}: their webs are not made for it. Squash blocks or full-depth blocking stand under \
                 it, by the maker's details (common practice, from memory).",
                self.field(field)
            ),
            Caution::OnBlocking { board } => format!(
                "{} is noted under it, between the joists: what stands here goes down through the blocks.",
                self.name(ElementId::Board(board))
            ),
            Caution::HangsOnLedger { board } => format!(
                "{} runs along it: what hangs there goes into this wall, by the ledger's screws or bolts alone. They go into \
                 the rim or the studs by schedule, not into boards or veneer (IRC R507.9 for decks, from memory).",
                self.name(ElementId::Board(board))
            ),
            Caution::CrippleWall { height } => cripple(height),
            Caution::ServicesInside => {
                "Look for wires, pipes and ducts in it, and for asbestos and lead paint on it.".to_owned()
            }
        }
    }

    /// A finding as a sentence.
    #[must_use]
    pub fn finding(&self, finding: &Finding) -> String {
        let weight = finding.weights.map(|weights| pounds(weights.all())).unwrap_or_default();
        let level = self.level(finding.level);
        match &finding.problem {
            Problem::MembersUnsupported { field, count } => format!(
                "{level}: {count} of the {} {} nothing to rest on at one end, or {} up there ({weight} with nowhere to go).",
                self.field(*field),
                if *count == 1 { "has" } else { "have" },
                if *count == 1 { "tips" } else { "tip" }
            ),
            Problem::RoofUnsupported { roof, count } => format!(
                "{level}: {count} {} do not reach two outside walls ({weight} with nowhere to go).",
                self.roof_members(*roof)
            ),
            Problem::RidgeUnsupported { .. } => {
                format!("{level}: the ridge beam has nothing to rest on at one end ({weight} with nowhere to go).")
            }
            Problem::StrutsOnNothing { .. } => {
                format!("{level}: struts under a purlin stand on nothing that is drawn ({weight} with nowhere to go).")
            }
            Problem::HipTopNotHeld { .. } => format!(
                "{level}: the hips meet with nothing drawn under them. The code wants a brace to a bearing wall there, or \
                 a design (IRC R802.3); traced as if the rafters there take it to the eaves."
            ),
            Problem::ValleyTopNotHeld { .. } => format!(
                "{level}: the valleys meet with nothing drawn under them. The code wants a brace to a bearing wall there, or \
                 a design (IRC R802.3); traced as if they and the rafters there take it to the eaves."
            ),
            Problem::ValleyNotMade { .. } => format!(
                "{level}: a roof meets another in valleys if both are gables of rafters over rectangles, their ridges square \
                 to each other, its own no higher, and it goes out over one eave; this one is traced as if it covered."
            ),
            Problem::RoofOpeningNotFramed { .. } => format!(
                "{level}: an opening in a roof is traced if it lies within one slope of a gable or shed of rafters, half a \
                 foot or more from ridge, eave and edges and clear of other openings; this one is not."
            ),
            Problem::HipNotOverRectangle { .. } => {
                format!("{level}: a hip roof is traced over a rectangle only; this one is traced as a gable.")
            }
            Problem::RidgeBoardTooFlat { .. } => format!(
                "{level}: under 3 in 12 a ridge board is not enough: the ridge has to be a beam (IRC R802.3). Find out \
                 what holds it."
            ),
            Problem::ThrustNotTied { count, .. } => format!(
                "{level}: no joists run along {count} pairs of rafters to tie their feet: they push the walls apart, or a \
                 ridge beam holds them up that is not drawn."
            ),
            Problem::GambrelBreakNotHeld { .. } => format!(
                "{level}: nothing is drawn under the change of slope: a low wall, a purlin or a stiff joint holds it. \
                 Traced from eave to eave."
            ),
            Problem::RoofOverRoof { .. } => {
                format!("{level}: one roof is built over another: the weight of both comes down.")
            }
            Problem::PurlinWithoutStruts { .. } => {
                format!("{level}: nobody saw what holds a purlin; traced as if it were not there.")
            }
            Problem::StrutsOnJoists { .. } => format!(
                "{level}: struts under a purlin stand on ceiling joists. They belong on a bearing wall or a beam (IRC \
                 R802.4.5)."
            ),
            Problem::StrutsTooFlat { rise, run, .. } => format!(
                "{level}: struts rise {} over {} level: flatter than 45 degrees (IRC R802.4.5).",
                self.length(*rise),
                self.length(*run)
            ),
            Problem::WallOnNothing { wall } => format!(
                "{} stands on nothing that is drawn below ({weight} with nowhere to go).",
                self.name(ElementId::Wall(*wall))
            ),
            Problem::PostOnNothing { post } => format!(
                "{} stands on nothing that is drawn below ({weight} with nowhere to go).",
                self.name(ElementId::Post(*post))
            ),
            Problem::ThingOnNothing { thing } => format!(
                "{} stands, all or in part, on no joist that is drawn ({weight} with nowhere to go).",
                self.name(ElementId::Thing(*thing))
            ),
            Problem::WeightNotStated { thing } => format!(
                "{}: nobody said what it weighs, so it counts for nothing yet.",
                self.name(ElementId::Thing(*thing))
            ),
            Problem::BeamUnsupported { beam } => format!(
                "{} has nothing to rest on at one end ({weight} with nowhere to go).",
                self.name(ElementId::Beam(*beam))
            ),
            Problem::BeamLoop { beams } => {
                let names: Vec<String> = beams.iter().map(|beam| self.name(ElementId::Beam(*beam))).collect();
                format!("These beams rest on each other in a ring: {} ({weight}).", names.join(", "))
            }
            Problem::PostWithoutFooting { post } => {
                let site = self.plan.site();
                let pad = finding.weights.map(|weights| footing::area(heaviest(&weights, site).0, site.soil()));
                let pad = pad.map(|area| {
                    format!(" On {} of soil it wants {} at the least.", psf(site.soil()), square_feet(area))
                });
                format!(
                    "{} brings {weight} to bare ground or slab: no pad is drawn, and a slab is no footing.{}",
                    self.name(ElementId::Post(*post)),
                    pad.unwrap_or_default()
                )
            }
            Problem::WallWithoutFooting { wall } => format!(
                "{} brings {weight} to the ground: a slab is no footing, and none is drawn under it.",
                self.name(ElementId::Wall(*wall))
            ),
            Problem::SoilOverloaded { footing, pressure, allowed } => format!(
                "{} presses {} on soil taken to bear {}.",
                self.name(ElementId::Footing(*footing)),
                psf(*pressure),
                psf(*allowed)
            ),
            Problem::LongSpan { field, span, reach, count } => format!(
                "{level}: {count} of the {} run {} without a support; no table lets such joists go further than {}. If \
                 something was taken out here, hold them up before anything else.",
                self.field(*field),
                self.length(*span),
                self.length(*reach)
            ),
            Problem::LongBeam { beam, span } => format!(
                "{} runs {} between two supports: beyond common beams, and a matter of design.",
                self.name(ElementId::Beam(*beam)),
                self.length(*span)
            ),
            Problem::PostOnThickening { post } => format!(
                "{} brings {weight} to a place where the slab was poured thicker: whether that is a footing for it, an \
                 engineer says.",
                self.name(ElementId::Post(*post))
            ),
            Problem::LapsNotSeen { field } => format!(
                "{level}: nobody looked whether the {} lap over what they cross; traced as if they do.",
                self.field(*field)
            ),
            Problem::NothingOverhead => format!("{level}: nobody has said yet what is overhead."),
            Problem::NoRoof => format!("{level}: no roof is stated over it; its load is missing."),
            Problem::SnowNotStated => "No ground snow load is stated: snow is missing from every figure.".to_owned(),
            Problem::SoilHasNoFigure => format!(
                "The soil is {}: the code has no figure for it, a test says what it bears. {} is taken meanwhile, as for \
                 clay, and may be too much.",
                self.plan.site().soil_class.map(soil).unwrap_or_default(),
                psf(self.plan.site().soil())
            ),
            Problem::OutlineOpen => format!("{level}: its outside walls do not close."),
            Problem::OffsetOverJoistDepth { upper, lower, offset } => format!(
                "{} stands {} off {}: more than the joists are deep, so the joists have to be checked.",
                self.name(ElementId::Wall(*upper)),
                self.length(Feet(offset.0 / 12.0)),
                self.name(ElementId::Wall(*lower))
            ),
        }
    }
}

impl Words<'_> {
    fn pocket(&self, beam: BeamId, at: Feet) -> String {
        let part = ElementId::Beam(beam);
        let steel = matches!(self.plan.element(part), Some(Element::Beam(it)) if it.member.material == Material::Steel);
        let air = if steel {
            ""
        } else {
            ", and 1/2 in of air at top, sides and end if its wood is untreated (IRC R317.1, from memory)"
        };
        format!(
            "{} ends in it at {}: it wants 3 in of bearing there or more (IRC R502.6){air}.",
            self.name(part),
            self.length(at)
        )
    }
}

/// Sole plate and double top plate, in feet.
const PLATES: f64 = 4.5 / 12.0;

/// What the code asks of a cripple wall of this height: its studs by IRC R602.9, its bracing by R602.10.11 (both MEMORY).
fn cripple(height: Feet) -> String {
    let studs = if height.0 - PLATES < 14.0 / 12.0 - 1e-6 {
        "Its studs are under 14 in: solid blocking stands there instead, or sheathing all along one side, nailed to both \
         plates."
    } else if height.0 > 4.0 + 1e-6 {
        "Over 4 ft high it counts as a storey: its studs are sized for one storey more."
    } else {
        "Its studs are no smaller than those of the wall over it."
    };
    format!(
        "A cripple wall: low studs between foundation and floor. {studs} It is braced as the wall over it, and more (IRC \
         R602.9 and R602.10.11, from memory)."
    )
}
