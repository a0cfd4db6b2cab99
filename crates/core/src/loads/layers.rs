//! Dead load by build-up: what lies on what, each with its weight and source, added up.
//!
//! On a square foot of the part itself: of floor, of slope, of wall face. Nothing here enters a trace by itself; a build-up
//! comes to the figure that a roof, a deck or a wall may be given.
//!
//! ```
//! use joistwise_core::loads::layers::{build_up, layer};
//! use joistwise_core::units::Psf;
//! let ceiling = ["framing 2x8 at 16 in", "lath and plaster, 3/4 to 1 in"].map(|what| layer(what).unwrap());
//! assert_eq!(build_up(&ceiling), Psf(12.0));
//! ```

use core::str::FromStr;

use serde::{Deserialize, Serialize};

use super::Mark;
use crate::units::Psf;

/// One layer or ready assembly.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layer<'text> {
    /// What a file calls it.
    pub key: &'text str,
    /// What it is.
    pub what: &'text str,
    /// What a square foot of it weighs; the upper end where a range was read.
    pub psf: Psf,
    /// Title, edition, table.
    pub source: &'text str,
    /// Whether it was read there.
    pub mark: Mark,
}

const HUD: &str = "HUD Residential Structural Design Guide (2000), Table 3.2";
const NOTES: &str = "Dead loads, introductory structural notes";
const CHAPTER: &str = "Loads chapter abstract (light-frame dead load)";
const SUBCOURSE: &str = "U.S. Army engineer subcourse EN5156, floor load";
const GRAPHIC: &str = "Architectural Graphic Standards, as quoted";
const LIST: &str = "Building material weights list";
const ASCE: &str = "ASCE 7 Table C3.1-1a";
const PRACTICE: &str = "common practice";

const fn seen(key: &'static str, what: &'static str, psf: f64, source: &'static str) -> Layer<'static> {
    Layer { key, what, psf: Psf(psf), source, mark: Mark::Seen }
}

const fn memory(key: &'static str, what: &'static str, psf: f64, source: &'static str) -> Layer<'static> {
    Layer { key, what, psf: Psf(psf), source, mark: Mark::Memory }
}

/// Published layers and assemblies.
pub const LAYERS: [Layer<'static>; 40] = [
    seen(
        "roof_asphalt_shingles",
        "roof: light frame, panel sheathing, 1/2 in gypsum ceiling, asphalt shingles",
        15.0,
        HUD,
    ),
    seen(
        "roof_tile",
        "roof: light frame, panel sheathing, 1/2 in gypsum ceiling, clay or other conventional tile",
        27.0,
        HUD,
    ),
    seen("roof_light_tile", "roof: light frame, panel sheathing, 1/2 in gypsum ceiling, light-weight tile", 21.0, HUD),
    seen("roof_metal", "roof: light frame, panel sheathing, 1/2 in gypsum ceiling, metal", 14.0, HUD),
    seen("roof_wood_shakes", "roof: light frame, panel sheathing, 1/2 in gypsum ceiling, wood shakes", 15.0, HUD),
    seen("roof_tar_and_gravel", "roof: light frame, panel sheathing, 1/2 in gypsum ceiling, tar and gravel", 18.0, HUD),
    seen(
        "floor_carpet_or_vinyl",
        "floor: 2x12 joists, 3/4 in panel, 1/2 in gypsum ceiling, carpet or vinyl",
        10.0,
        HUD,
    ),
    seen("floor_wood", "floor: 2x12 joists, 3/4 in panel, 1/2 in gypsum ceiling, wood flooring", 12.0, HUD),
    seen("floor_ceramic_tile", "floor: 2x12 joists, 3/4 in panel, 1/2 in gypsum ceiling, ceramic tile", 15.0, HUD),
    seen("floor_slate", "floor: 2x12 joists, 3/4 in panel, 1/2 in gypsum ceiling, slate", 19.0, HUD),
    seen("wall_no_siding", "wall: 2x4, 1/2 in panel, 1/2 in gypsum, no siding", 6.0, HUD),
    seen("wall_vinyl_or_aluminum_siding", "wall: 2x4, 1/2 in panel, 1/2 in gypsum, vinyl or aluminum siding", 7.0, HUD),
    seen("wall_lap_wood_siding", "wall: 2x4, 1/2 in panel, 1/2 in gypsum, lap wood siding", 8.0, HUD),
    seen("wall_stucco", "wall: 2x4, 1/2 in panel, 1/2 in gypsum, 7/8 in stucco", 15.0, HUD),
    seen("wall_thin_stucco", "wall: 2x4, 1/2 in panel, 1/2 in gypsum, thin stucco on insulation board", 9.0, HUD),
    seen("wall_brick_veneer", "wall: 2x4, 1/2 in panel, 1/2 in gypsum, 3 1/2 in brick veneer", 45.0, HUD),
    seen("partition_gypsum_both_sides", "interior partition: 2x4, 1/2 in gypsum both sides", 6.0, HUD),
    seen("framing_2x8_at_16_in", "framing 2x8 at 16 in", 2.0, NOTES),
    seen("framing_2x12_at_16_in", "framing 2x12 at 16 in", 3.0, NOTES),
    seen("gypsum_board_half_in", "1/2 in gypsum board", 2.0, NOTES),
    seen("hardwood_flooring_1_in", "1 in hardwood flooring", 4.0, NOTES),
    seen("plywood_half_in", "1/2 in plywood", 2.0, NOTES),
    seen("built_up_roof", "built-up roof", 7.0, NOTES),
    seen("wood_shingles", "wood shingles", 3.0, NOTES),
    seen("slate_roofing", "slate roofing", 10.0, NOTES),
    seen("tile_roofing", "tile roofing", 15.0, NOTES),
    seen("asphalt_shingles", "asphalt shingles", 3.0, NOTES),
    seen("light_frame_without_plaster", "light-frame floor or roof without plaster", 10.0, CHAPTER),
    seen("light_frame_with_plaster", "light-frame floor or roof with plaster", 20.0, CHAPTER),
    seen("concrete_slab_each_inch", "concrete slab, each inch", 12.0, CHAPTER),
    seen("floor_without_plaster_below", "floor: subfloor, finish floor, joists, no plaster below", 10.0, SUBCOURSE),
    seen("plastered_ceiling_below", "plastered ceiling below, added", 10.0, SUBCOURSE),
    seen("attic_plaster_and_joists", "attic unfloored: ceiling plaster and joists", 20.0, SUBCOURSE),
    seen("exterior_2x6_wall", "exterior 2x6 wall", 16.0, GRAPHIC),
    seen("brick_4_in", "brick 4 in", 40.0, LIST),
    memory("lath_and_plaster", "lath and plaster, 3/4 to 1 in", 10.0, ASCE),
    memory("mud_set_tile_floor", "mud-set tile floor", 25.0, ASCE),
    memory("brick_veneer_4_in", "brick veneer 4 in", 39.0, ASCE),
    memory("insulation_each_inch", "insulation, loose or batt, each inch", 0.2, ASCE),
    memory("stone_counter", "granite or stone counter 1 1/4 in", 19.0, PRACTICE),
];

/// A layer of the list: in a file by its key, in files of version 1 by what it is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Listed(Layer<'static>);

/// A name that is not in the list.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("'{0}' is not a layer of the list")]
pub struct NotListed(String);

impl Listed {
    /// The layer.
    #[must_use]
    pub const fn layer(&self) -> &Layer<'static> {
        &self.0
    }
}

impl FromStr for Listed {
    type Err = NotListed;

    fn from_str(what: &str) -> Result<Self, NotListed> {
        let what = what.trim();
        let keyed = || LAYERS.iter().find(|layer| layer.key == what).copied();
        layer(what).or_else(keyed).map(Self).ok_or_else(|| NotListed(crate::tape::quoted(what, 60)))
    }
}

impl TryFrom<String> for Listed {
    type Error = NotListed;

    fn try_from(what: String) -> Result<Self, NotListed> {
        what.parse()
    }
}

impl From<Listed> for String {
    fn from(listed: Listed) -> Self {
        listed.0.key.to_owned()
    }
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for Listed {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Layer".into()
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "string", "enum": LAYERS.map(|layer| layer.key).to_vec() })
    }
}

/// What a part weighs a square foot: the figure that was typed for it, else its layers together, else the usual one.
#[must_use]
pub fn weighs(typed: Option<Psf>, layers: &[Listed], usual: Psf) -> Psf {
    let sum = || layers.iter().map(|listed| listed.0.psf).sum();
    typed.unwrap_or_else(|| if layers.is_empty() { usual } else { sum() })
}

/// A published layer by its name.
#[must_use]
pub fn layer(what: &str) -> Option<Layer<'static>> {
    LAYERS.iter().find(|layer| layer.what == what).copied()
}

/// All layers together.
#[must_use]
pub fn build_up(layers: &[Layer<'_>]) -> Psf {
    layers.iter().map(|layer| layer.psf).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_layer_has_two_weights() {
        for (number, one) in LAYERS.iter().enumerate() {
            assert!(LAYERS[..number].iter().all(|other| other.what != one.what), "{}", one.what);
            assert!(LAYERS[..number].iter().all(|other| other.key != one.key), "{}", one.key);
        }
    }

    #[test]
    fn a_layer_is_found_by_its_key_and_by_what_version_1_called_it() {
        for layer in LAYERS {
            let by = |name: &str| name.parse::<Listed>().map(String::from);
            assert_eq!((by(layer.key), by(layer.what)), (Ok(layer.key.to_owned()), Ok(layer.key.to_owned())));
        }
    }

    /// An engineer's build-up of 2018, as read: shingles 3, sheathing 2, framing 5, ceiling 2.5, other 2.5: 15 psf.
    #[test]
    fn a_roof_of_five_layers_weighs_15_psf() {
        let parts = [("shingles", 3.0), ("sheathing", 2.0), ("framing", 5.0), ("ceiling", 2.5), ("other", 2.5)];
        let layers = parts.map(|(what, psf)| seen("", what, psf, "structural calculations, 2018"));
        assert_eq!(build_up(&layers), Psf(15.0));
    }
}
