//! Roles, reasons, cautions and findings: what the trace says, as data. Sentences live in `words`.

use serde::Serialize;

use super::ends::End;
use crate::geometry::Spot;
use crate::ids::{
    BeamId, BoardId, FieldId, FloorOpeningId, FootingId, LevelId, ObservationId, PostId, PurlinId, RoofId, ThingId,
    WallId,
};
use crate::loads::Weights;
use crate::plan::Grade;
use crate::units::{Feet, Inches, Psf};

/// What a stretch of wall is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// Roof load lands on it.
    CarriesRoof,
    /// Floor load lands on it.
    CarriesFloor,
    /// Ceiling or attic load lands on it.
    CarriesCeiling,
    /// Nothing but a beam or a post stands on it here.
    HoldsPoint,
    /// An outside wall: always treated as bearing, and as bracing.
    Outside,
    /// Nothing found that lands on it.
    NothingFound,
    /// Not settled by what is known: counts as bearing.
    NeedsALook,
}

impl Role {
    /// The letter of its badge.
    #[must_use]
    pub const fn badge(self) -> char {
        match self {
            Self::CarriesRoof => 'R',
            Self::CarriesFloor => 'F',
            Self::CarriesCeiling => 'C',
            Self::HoldsPoint => 'P',
            Self::Outside => 'O',
            Self::NothingFound => 'n',
            Self::NeedsALook => '?',
        }
    }

    /// Whether load is known to land on it along its length.
    #[must_use]
    pub const fn carries(self) -> bool {
        matches!(self, Self::CarriesRoof | Self::CarriesFloor | Self::CarriesCeiling)
    }
}

/// Where a load comes from, heaviest claim first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Origin {
    /// A roof.
    Roof,
    /// A floor, or a wall that stands on one.
    Floor,
    /// A ceiling or an attic floor.
    Ceiling,
}

/// A place on the path of a load.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case", tag = "kind", content = "id")]
pub enum Node {
    /// A roof.
    Roof(RoofId),
    /// A joist field.
    Field(FieldId),
    /// A header or trimmer around an opening in a deck.
    FloorOpening(FloorOpeningId),
    /// A wall.
    Wall(WallId),
    /// A beam.
    Beam(BeamId),
    /// A post.
    Post(PostId),
    /// A purlin under a roof.
    Purlin(PurlinId),
    /// A heavy thing.
    Thing(ThingId),
    /// A pad or strip footing.
    Footing(FootingId),
    /// The ground, where no footing is drawn.
    Ground,
    /// A weight put down to be followed: in paths alone, never in a trace.
    Here,
    /// Nothing: the load has nowhere to go.
    Gap,
}

/// Why a stretch has its role. Each stands for a fact; some speak for bearing, some against.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case", tag = "reason")]
pub enum Reason {
    /// It is an outside wall.
    OutsideWall,
    /// Joists lap, butt or end over it.
    JoistsLapOver {
        /// Of which field.
        field: FieldId,
    },
    /// Joists of a field end on it.
    JoistsEndOn {
        /// Of which field.
        field: FieldId,
    },
    /// Joists pass over it and bear on it.
    JoistsPassOver {
        /// Of which field.
        field: FieldId,
    },
    /// Joists cross it; nobody looked whether they lap.
    JoistsCross {
        /// Of which field.
        field: FieldId,
    },
    /// Rafters or trusses stand on it.
    RoofStandsOn {
        /// Which roof.
        roof: RoofId,
    },
    /// Rafters lean on it between eave and ridge: it stands up to them.
    RaftersLeanOn {
        /// Of which roof.
        roof: RoofId,
    },
    /// Struts under a purlin stand on it: it carries roof.
    StrutsStandOn {
        /// Which purlin.
        purlin: PurlinId,
    },
    /// The ridge beam of a roof rests on it in one place.
    RidgeRestsOn {
        /// Of which roof.
        roof: RoofId,
        /// From end `a` of the wall.
        at: Feet,
    },
    /// A hip rests on it in one place.
    HipRestsOn {
        /// Of which roof.
        roof: RoofId,
        /// From end `a` of the wall.
        at: Feet,
    },
    /// A valley rafter rests on it in one place.
    ValleyRestsOn {
        /// Of which wing.
        roof: RoofId,
        /// From end `a` of the wall.
        at: Feet,
    },
    /// A wall above stands on it, in line.
    WallStandsOn {
        /// The wall above.
        upper: WallId,
        /// How far its line is off.
        offset: Feet,
    },
    /// A wall above stands on the joists near it, and this wall gets a share.
    WallNearStandsOn {
        /// The wall above.
        upper: WallId,
        /// How far its line is off.
        offset: Feet,
    },
    /// A beam lies along its top.
    BeamLiesOn {
        /// Which beam.
        beam: BeamId,
    },
    /// A beam rests on it in one place.
    BeamRestsOn {
        /// Which beam.
        beam: BeamId,
        /// From end `a` of the wall.
        at: Feet,
    },
    /// A post above stands on it.
    PostStandsOn {
        /// Which post.
        post: PostId,
        /// From end `a` of the wall.
        at: Feet,
    },
    /// A trimmer or header of a deck opening rests on it.
    TrimmerRestsOn {
        /// Which opening.
        opening: FloorOpeningId,
        /// From end `a` of the wall.
        at: Feet,
    },
    /// Joists overhead run along it.
    JoistsRunAlong {
        /// Of which field.
        field: FieldId,
    },
    /// Trusses pass over it: made to bear at their ends.
    TrussesPassOver {
        /// Of which roof.
        roof: RoofId,
    },
    /// Rafters tied by the ceiling joists stand on the eave walls, not on it.
    RoofGoesToEaves {
        /// Of which roof.
        roof: RoofId,
    },
    /// A gap was seen over its whole length.
    GapSeen,
    /// It was looked at along its whole top plate, from both faces, and nothing lands on it.
    LookedAlong,
    /// What was seen of it, or of what is over it, does not fit together.
    FactsDisagree,
    /// However the house may be framed that fits what was seen, nothing lands on it.
    NothingInAny,
    /// Something was seen on it that carries, though nothing drawn lands there.
    SeenToCarry {
        /// What was seen.
        seen: ObservationId,
    },
    /// Nobody said what is overhead.
    NothingStatedOverhead,
    /// The way the joists run is not seen, only told or assumed.
    DirectionNotSeen {
        /// Of which field.
        field: FieldId,
        /// How it is known.
        known: Grade,
    },
    /// How the roof is framed is not seen.
    RoofFrameNotSeen {
        /// Which roof.
        roof: RoofId,
    },
    /// The trusses are site built: nobody can say where they bear.
    TrussesSiteBuilt {
        /// Of which roof.
        roof: RoofId,
    },
    /// A web of the trusses is cut: they may lean on what is under them.
    TrussWebCut {
        /// Of which roof.
        roof: RoofId,
    },
    /// A tag or drawing says that the trusses bear inside the house.
    TrussesBearInside {
        /// Of which roof.
        roof: RoofId,
    },
    /// Nobody looked at the trusses' plates or webs.
    TrussesNotLookedAt {
        /// Of which roof.
        roof: RoofId,
    },
    /// A masonry wall inside a house is treated as bearing until somebody proves otherwise.
    InsideMasonry,
    /// Hips meet near it and nothing drawn holds them: a brace may come down on it.
    HipMayLeanOn {
        /// Of which roof.
        roof: RoofId,
    },
    /// Valleys meet over it with nothing drawn under them: a brace may come down on it.
    ValleyMayLeanOn {
        /// Of which wing.
        roof: RoofId,
    },
    /// A purlin runs near it, and nobody saw on what its struts stand.
    PurlinMayLeanOn {
        /// Which purlin.
        purlin: PurlinId,
    },
    /// The slope is too flat for a ridge board: something under the ridge may hold it.
    RidgeMayLeanOn {
        /// Of which roof.
        roof: RoofId,
    },
    /// Nothing is drawn under an end of a beam, or a post, that is over it: it may stand on it.
    EndMayStandOn {
        /// Of what.
        end: End,
    },
    /// Struts under a purlin stand on joists that rest on it.
    StrutsPressOn {
        /// Which purlin.
        purlin: PurlinId,
    },
    /// It was built later: what runs through over it stood without it.
    BuiltLater,
    /// Studs are packed together in it: that marks a load in one place.
    StudPackIn {
        /// Which pack.
        post: PostId,
        /// From end `a` of the wall.
        at: Feet,
    },
    /// Joists near it have nothing else to end on.
    JoistsEndNear {
        /// Of which field.
        field: FieldId,
    },
}

impl Reason {
    /// Whether it speaks against the wall carrying anything.
    #[must_use]
    pub const fn speaks_against(&self) -> bool {
        matches!(
            self,
            Self::JoistsRunAlong { .. }
                | Self::TrussesPassOver { .. }
                | Self::RoofGoesToEaves { .. }
                | Self::GapSeen
                | Self::LookedAlong
                | Self::NothingInAny
        )
    }

    /// Whether it says what nobody has seen of the framing overhead.
    #[must_use]
    pub const fn asks_of_framing(&self) -> bool {
        matches!(
            self,
            Self::NothingStatedOverhead
                | Self::DirectionNotSeen { .. }
                | Self::RoofFrameNotSeen { .. }
                | Self::TrussesNotLookedAt { .. }
        )
    }
}

/// Something to know about a wall even when its role is right.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case", tag = "caution")]
pub enum Caution {
    /// The joists over it tie the rafters: a beam in the ceiling would cut the ties.
    TiesCutIfFlush {
        /// Of which roof.
        roof: RoofId,
    },
    /// It stands over posts or piers: whatever replaces it has to reach one.
    EndsNeedPath,
    /// The wall above is further off than the joists are deep.
    OffsetOverJoistDepth {
        /// The wall above.
        upper: WallId,
        /// How far off.
        offset: Feet,
        /// How deep the joists are.
        depth: Feet,
    },
    /// The wall above stands on I-joists off the wall below: any offset is designed.
    OffsetOnIJoists {
        /// The wall above.
        upper: WallId,
        /// How far off.
        offset: Feet,
    },
    /// The trusses may have settled onto it if it was there first.
    TrussesMaySettle {
        /// Of which roof.
        roof: RoofId,
    },
    /// No chord and no web of a truss may be cut.
    DoNotCutTrusses {
        /// Of which roof.
        roof: RoofId,
    },
    /// It runs along most joists overhead and carries all the same.
    ParallelRuleMisleads,
    /// Post or stud pack that holds the corner of a deck opening: it stays or is replaced.
    KeepOrReplaceCornerPost {
        /// Which post.
        post: PostId,
    },
    /// Beside a stair: once it is low, the open side needs a guard.
    GuardAtOpenSide {
        /// Which opening.
        opening: FloorOpeningId,
    },
    /// A beam stands under its line: that is no proof of load from above.
    BeamBelowIsNoProof {
        /// Which beam.
        beam: BeamId,
    },
    /// Joists may turn on the other side: look along both faces, the whole length.
    CheckBothSides,
    /// It may brace the house sideways, whatever it carries.
    MayBrace,
    /// Roof and snow come down on it inside the house.
    RoofOnInsideWall,
    /// Struts stand on it: the purlin has to be held another way before it goes.
    StrutsNeedSupport {
        /// Under which purlin.
        purlin: PurlinId,
    },
    /// It carries roof and snow onto joists that may never have been given that load.
    RoofOnJoists,
    /// What is stored overhead lies on joists that tie the rafters.
    StorageOnTies {
        /// Which joists.
        field: FieldId,
    },
    /// Trusses bear on it: what lands there is on their drawing.
    TrussDrawing,
    /// It was built later, and may carry by touching all the same.
    LaterWall,
    /// Its studs run on past the floor over it.
    StudsRunOn,
    /// The ridge beam brings its load to one place of it: a post stands there, and goes on to the foundation.
    RidgeNeedsPost {
        /// Of which roof.
        roof: RoofId,
        /// From end `a` of the wall.
        at: Feet,
    },
    /// A pack of studs stands in it: find out what lands on it; a wall cut low does not carry.
    StudPack {
        /// Which pack.
        post: PostId,
    },
    /// A post stands over a beam below: blocks between floor and beam, and the beam is checked.
    PostOverBeam {
        /// Which beam.
        beam: BeamId,
    },
    /// It stands on that beam between two of its supports.
    BetweenSupports {
        /// Which beam.
        beam: BeamId,
    },
    /// A post stands on joists, beside what could take it.
    PostOnJoists,
    /// A post stands on joists past their last support.
    PostOnCantilever {
        /// Which joists.
        field: FieldId,
    },
    /// Wood under the post is pressed across its grain.
    CheckCrushing,
    /// The cells of the blocks under the post have to be filled.
    FillBlocks,
    /// It carries, and stands along joists, with nothing in line below.
    AlongJoists {
        /// The field it stands on.
        field: FieldId,
    },
    /// It carries, and stands on joists between their supports.
    StandsOnJoists {
        /// The field it stands on.
        field: FieldId,
    },
    /// Expect a dip in the floor along it.
    FloorDipExpected,
    /// A beam ends in it, and it is of masonry or concrete.
    BeamPocket {
        /// Which beam.
        beam: BeamId,
        /// From end `a` of the wall.
        at: Feet,
    },
    /// A wall of studs between the foundation and the first floor, outside or bearing.
    CrippleWall {
        /// How high it is.
        height: Feet,
    },
    /// It comes down through I-joists, with no blocking noted under it.
    SquashBlocks {
        /// Which joists.
        field: FieldId,
    },
    /// It comes down through joists, and blocking is noted under it.
    OnBlocking {
        /// Which.
        board: BoardId,
    },
    /// A ledger along its face brings it what joists hang on it.
    HangsOnLedger {
        /// Which.
        board: BoardId,
    },
    /// Wires, pipes and ducts may be in it.
    ServicesInside,
}

/// Something the plan leaves open, or a load with nowhere to go.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Finding {
    /// On which level.
    pub level: LevelId,
    /// Where.
    pub at: Spot,
    /// What.
    pub problem: Problem,
    /// What is lost there, for path gaps.
    pub weights: Option<Weights>,
}

/// What is open.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case", tag = "problem")]
pub enum Problem {
    /// Path gap: members of a field have fewer than two supports, or tip.
    MembersUnsupported {
        /// Of which field.
        field: FieldId,
        /// How many.
        count: usize,
    },
    /// Path gap: rafters or trusses do not reach two outside walls.
    RoofUnsupported {
        /// Which roof.
        roof: RoofId,
        /// How many.
        count: usize,
    },
    /// Path gap: a ridge beam has fewer than two supports, or tips.
    RidgeUnsupported {
        /// Of which roof.
        roof: RoofId,
    },
    /// Path gap: struts of a purlin stand on nothing.
    StrutsOnNothing {
        /// Of which purlin.
        purlin: PurlinId,
    },
    /// Path gap: a wall stands on nothing.
    WallOnNothing {
        /// Which.
        wall: WallId,
    },
    /// Path gap: a post stands on nothing.
    PostOnNothing {
        /// Which.
        post: PostId,
    },
    /// Path gap: a heavy thing, or a part of it, stands on no joist that is drawn.
    ThingOnNothing {
        /// Which.
        thing: ThingId,
    },
    /// Nobody said what a heavy thing weighs, and no usual figure is known.
    WeightNotStated {
        /// Of which thing.
        thing: ThingId,
    },
    /// Path gap: a beam has fewer than two supports, or tips.
    BeamUnsupported {
        /// Which.
        beam: BeamId,
    },
    /// Path gap: beams rest on each other in a ring.
    BeamLoop {
        /// Which.
        beams: Vec<BeamId>,
    },
    /// Path gap: a post on the lowest level without a pad or footing.
    PostWithoutFooting {
        /// Which.
        post: PostId,
    },
    /// A wall that carries ends on ground for which no footing is drawn.
    WallWithoutFooting {
        /// Which.
        wall: WallId,
    },
    /// A footing presses harder than the soil value.
    SoilOverloaded {
        /// Which.
        footing: FootingId,
        /// What arrives.
        pressure: Psf,
        /// What the soil is taken to bear.
        allowed: Psf,
    },
    /// The ends of the ridge of a hip roof have nothing drawn under them.
    HipTopNotHeld {
        /// Of which roof.
        roof: RoofId,
    },
    /// The valleys of a wing meet with nothing drawn under them.
    ValleyTopNotHeld {
        /// Of which wing.
        roof: RoofId,
    },
    /// A roof is said to meet another in valleys, and there is none that it can: traced as one that covers.
    ValleyNotMade {
        /// Which roof.
        roof: RoofId,
    },
    /// An opening in a roof is not within one slope of a gable or shed of rafters: traced as if it were not there.
    RoofOpeningNotFramed {
        /// In which roof.
        roof: RoofId,
    },
    /// A hip roof is not over a rectangle: traced as a gable.
    HipNotOverRectangle {
        /// Which roof.
        roof: RoofId,
    },
    /// A slope under 3 in 12 against a ridge board.
    RidgeBoardTooFlat {
        /// Of which roof.
        roof: RoofId,
    },
    /// Rafters lean on each other where no joists run along them to tie their feet.
    ThrustNotTied {
        /// Of which roof.
        roof: RoofId,
        /// How many pairs.
        count: usize,
    },
    /// A slope of a gambrel changes with nothing drawn under it.
    GambrelBreakNotHeld {
        /// Of which roof.
        roof: RoofId,
    },
    /// A roof is built on another one: the weight of both counts.
    RoofOverRoof {
        /// The upper one.
        roof: RoofId,
    },
    /// Nobody saw what holds a purlin.
    PurlinWithoutStruts {
        /// Which.
        purlin: PurlinId,
    },
    /// Struts stand on joists and not on a wall.
    StrutsOnJoists {
        /// Of which purlin.
        purlin: PurlinId,
    },
    /// Struts lie flatter than 45 degrees.
    StrutsTooFlat {
        /// Of which purlin.
        purlin: PurlinId,
        /// Foot to head, upright.
        rise: Feet,
        /// Foot to head, level.
        run: Feet,
    },
    /// A beam runs further between two supports than beams of houses commonly do.
    LongBeam {
        /// Which.
        beam: BeamId,
        /// How far.
        span: Feet,
    },
    /// A post stands where a slab was poured thicker.
    PostOnThickening {
        /// Which.
        post: PostId,
    },
    /// Joists run further than any table goes.
    LongSpan {
        /// Of which field.
        field: FieldId,
        /// The longest.
        span: Feet,
        /// The longest span of any table for such joists.
        reach: Feet,
        /// How many members.
        count: usize,
    },
    /// Nobody looked whether the joists lap.
    LapsNotSeen {
        /// Of which field.
        field: FieldId,
    },
    /// Nothing is stated over a level, or over part of it.
    NothingOverhead,
    /// No roof is stated over the top level.
    NoRoof,
    /// No ground snow load is stated.
    SnowNotStated,
    /// The soil is of a class for which the code has no figure, and nobody typed one.
    SoilHasNoFigure,
    /// The outside walls do not close.
    OutlineOpen,
    /// A wall above is off the wall below by more than the joists are deep.
    OffsetOverJoistDepth {
        /// The wall above.
        upper: WallId,
        /// The nearest support.
        lower: WallId,
        /// How far off.
        offset: Inches,
    },
}

impl Problem {
    /// Whether a load arrives and nothing takes it.
    #[must_use]
    pub const fn is_path_gap(&self) -> bool {
        matches!(
            self,
            Self::MembersUnsupported { .. }
                | Self::RoofUnsupported { .. }
                | Self::RidgeUnsupported { .. }
                | Self::StrutsOnNothing { .. }
                | Self::WallOnNothing { .. }
                | Self::PostOnNothing { .. }
                | Self::ThingOnNothing { .. }
                | Self::BeamUnsupported { .. }
                | Self::BeamLoop { .. }
                | Self::PostWithoutFooting { .. }
        )
    }
}
