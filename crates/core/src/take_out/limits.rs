//! How far joists and rafters may sag, by what their layers say hangs from them or lies on them.
//!
//! Stricter than the usual limits only: a layer never lets a member sag further.

use super::member::{CEILING_JOISTS, FLOOR_JOISTS, RAFTERS};
use crate::loads::layers::Listed;
use crate::loads::{Mark, Sourced};
use crate::plan::{JoistField, Roof};
use crate::strength::check::SagLimits;

/// What cracks when a member sags.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Brittle {
    /// A ceiling of plaster.
    Plaster,
    /// A floor of tile.
    Tile,
    /// A floor of slate or stone.
    Stone,
}

impl Brittle {
    /// The part of the span that a member may sag by under live load.
    pub(crate) const fn limit(self) -> Sourced<f64> {
        let (value, source) = match self {
            Self::Plaster => (360.0, "IRC Table R301.7, ceilings with brittle finishes"),
            Self::Tile => (480.0, "common practice for tile"),
            Self::Stone => (720.0, "common practice for stone, as tile setters' handbooks ask"),
        };
        Sourced { value, source, mark: Mark::Memory }
    }

    /// In words.
    pub(crate) const fn word(self) -> &'static str {
        match self {
            Self::Plaster => "plaster",
            Self::Tile => "tile",
            Self::Stone => "stone",
        }
    }
}

/// The most brittle of some layers.
pub(crate) fn brittle(layers: &[Listed]) -> Option<Brittle> {
    let of = |listed: &Listed| {
        let what = listed.layer().what;
        let has = |word: &str| what.contains(word);
        let roofing = has("roofing") || what.starts_with("roof");
        match () {
            () if (has("slate") || has("stone")) && !roofing && !has("counter") => Some(Brittle::Stone),
            () if has("tile") && !roofing => Some(Brittle::Tile),
            () if has("plaster") && !has("no plaster") && !has("without plaster") => Some(Brittle::Plaster),
            () => None,
        }
    };
    let worse = |one: Brittle, other: Brittle| if other.limit().value > one.limit().value { other } else { one };
    layers.iter().filter_map(of).reduce(worse)
}

fn with(usual: SagLimits, layers: &[Listed]) -> SagLimits {
    let live = brittle(layers).map_or(usual.live, |it| it.limit().value.max(usual.live));
    SagLimits { live, ..usual }
}

/// The limits of the joists of a field.
pub(crate) fn of_joists(field: &JoistField) -> SagLimits {
    with(if field.used_as.is_ceiling() { CEILING_JOISTS } else { FLOOR_JOISTS }, &field.layers)
}

/// The limits of the rafters of a roof.
pub(crate) fn of_rafters(roof: &Roof) -> SagLimits {
    with(RAFTERS, &roof.layers)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::loads::layers::LAYERS;
    use crate::plan::{Grade, Region, Use, Way};

    fn live(used_as: Use, layers: &[&str]) -> f64 {
        let layers = layers.iter().map(|it| it.parse().unwrap()).collect();
        let field = JoistField { layers, ..JoistField::usual(Region::Outline, Way::X, Grade::Seen, used_as) };
        of_joists(&field).live
    }

    #[test]
    fn plaster_on_a_ceiling_allows_l_over_360_and_gypsum_240() {
        let plaster = "attic unfloored: ceiling plaster and joists";
        assert!((live(Use::AtticBare, &[plaster]) - 360.0).abs() < 1e-9);
        assert!((live(Use::AtticBare, &["1/2 in gypsum board"]) - 240.0).abs() < 1e-9);
        assert!((live(Use::AtticBare, &["light-frame floor or roof without plaster"]) - 240.0).abs() < 1e-9);
    }

    #[test]
    fn tile_allows_l_over_480_and_slate_720_and_neither_less_than_the_usual_limit() {
        let (tile, slate) = ("mud-set tile floor", "floor: 2x12 joists, 3/4 in panel, 1/2 in gypsum ceiling, slate");
        assert!((live(Use::Living, &[tile]) - 480.0).abs() < 1e-9);
        assert!((live(Use::Living, &[tile, slate]) - 720.0).abs() < 1e-9);
        assert!((live(Use::Living, &["tile roofing"]) - 360.0).abs() < 1e-9);
        assert!((live(Use::Living, &["granite or stone counter 1 1/4 in"]) - 360.0).abs() < 1e-9);
        let told = LAYERS.iter().filter_map(|it| it.what.parse().ok()).filter_map(|it: Listed| brittle(&[it])).count();
        assert!(told >= 6, "{told} layers of the list are brittle");
    }
}
