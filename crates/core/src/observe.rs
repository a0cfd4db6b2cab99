//! What counts as proof: each kind of observation, what it can prove, how much it weighs, and where that is said.
//!
//! One table; the page shows it as it stands. What follows from an observation for one house is worked out in `readings`.

use serde::Serialize;

use crate::loads::Mark;
use crate::plan::Saw;

/// How much an observation of one kind weighs when it was seen or measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Weight {
    /// It settles what it is about.
    Proof,
    /// It makes one answer much likelier.
    StrongHint,
    /// It makes one answer likelier.
    Hint,
    /// It proves nothing, whatever people say.
    Nothing,
    /// A sign of trouble: no size is given until somebody has looked into it.
    Distress,
    /// A record for whoever comes next.
    Record,
}

/// Of what an observation speaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum About {
    /// The wall nearest to it.
    Wall,
    /// The joists over the place.
    Joists,
    /// The roof over the place.
    Roof,
    /// The house as a whole.
    House,
}

/// One kind of observation.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Proof {
    /// Its word in the file.
    pub key: &'static str,
    /// What was seen, as one says it.
    pub what: &'static str,
    /// What it can prove, and what not.
    pub proves: &'static str,
    /// How much it weighs.
    pub weight: Weight,
    /// Of what it speaks.
    pub about: About,
    /// Title and statement.
    pub source: &'static str,
    /// Whether it was read there.
    pub mark: Mark,
}

macro_rules! proofs { ($($pattern:pat, $KEY:ident, $key:literal, $weight:ident, $about:ident, $mark:ident;
    $what:literal; $proves:literal; $source:literal.)*) => {
    $(static $KEY: Proof = Proof {
        key: $key, what: $what, proves: $proves, weight: Weight::$weight, about: About::$about, source: $source,
        mark: Mark::$mark,
    };)*

    /// All kinds, in the order in which they weigh.
    pub static PROOFS: [&Proof; [$($key),*].len()] = [$(&$KEY),*];

    /// What an observation of this kind can prove.
    #[must_use]
    pub const fn proof(saw: &Saw) -> &'static Proof {
        match saw { $($pattern => &$KEY,)* }
    }
} }

proofs! {
    Saw::JoistsLap, JOISTS_LAP, "joists_lap", Proof, Wall, Seen;
        "Ends of joists meet over the wall: a lap, a butt or a splice";
        "The wall carries them: no piece reaches past it";
        "How to Identify a Load Bearing Wall (inspection firm)".
    Saw::JoistsEnd, JOISTS_END, "joists_end", Proof, Wall, Seen;
        "Joists come from this side and end on the wall";
        "The wall carries them. They may run otherwise on the other side";
        "How to Identify a Load Bearing Wall (inspection firm)".
    Saw::JoistsHang, JOISTS_HANG, "joists_hang", Proof, Wall, Seen;
        "Hangers on a face of the member over the wall";
        "The member carries those joists, and the wall carries the member, though most joists may run along the wall";
        "A Load Bearing Wall Can Be Deceptive".
    Saw::SitOnPlate, SIT_ON_PLATE, "sit_on_plate", Proof, Wall, Seen;
        "Joists or trusses sit on its top plate, crossing it";
        "It carries what sits on it. Board that touches a truss is no plate";
        "How to tell load bearing wall with truss roof (collected statements)".
    Saw::StrutStands, STRUT_STANDS, "strut_stands", Proof, Wall, Seen;
        "A strut from a purlin, hip or ridge stands on the wall";
        "It carries roof, though the ceiling alone would call it light";
        "Home inspection archive, quoting R802.3 and the purlin brace rule".
    Saw::StudPack { .. }, STUD_PACK, "stud_pack", Proof, Wall, Seen;
        "Studs packed together in the wall";
        "A load stands in that one place. Of the rest of the wall it says nothing";
        "A Load Bearing Wall Can Be Deceptive".
    Saw::TrussTag, TRUSS_TAG, "truss_tag", Proof, Wall, Seen;
        "A tag or the truss drawing names the wall as a bearing";
        "The trusses bear on it by design";
        "How to tell load bearing wall with truss roof (collected statements)".
    Saw::BeamOver, BEAM_OVER, "beam_over", Proof, Wall, Memory;
        "A girder truss or a beam over the wall, from end to end: joists, trusses or rafters hang on it or end on it";
        "What comes there goes to the two ends of the wall, and down from them. Draw it, with what stands below its ends";
        "Common practice".
    Saw::NoBeamOver, NO_BEAM_OVER, "no_beam_over", Proof, Wall, Memory;
        "No girder truss and no beam over the wall, looked at along its whole length";
        "Nothing else takes what comes to it. How joists, trusses or rafters meet it is another look";
        "Common practice".
    Saw::Gap, GAP, "gap", Proof, Wall, Seen;
        "A gap between the wall and what passes over it, along its whole length";
        "Nothing can land on it from above. Whether it braces the house stays open";
        "How to tell load bearing wall with truss roof (collected statements)".
    Saw::NothingStands, NOTHING_STANDS, "nothing_stands", Proof, Wall, Seen;
        "Looked at along its whole top plate, from both faces: nothing crosses it, ends on it or stands on it";
        "Nothing found that lands on it. Seen from one face or in part it proves nothing: framing changes along a wall";
        "How can I tell if a wall is a load-bearing wall (house tips page)".
    Saw::RunAlong, RUN_ALONG, "run_along", Proof, Wall, Seen;
        "Joists run along it, on both of its faces and along its whole length";
        "No joist lands on it. Something else may stand on it: a strut, a beam end, a wall above";
        "How can I tell if a wall is a load-bearing wall (house tips page)".
    Saw::NoStrut, NO_STRUT, "no_strut", Proof, Wall, Memory;
        "No strut comes down from the roof on it, looked at along its whole length";
        "The roof does not stand on it there. Its ceiling or floor may";
        "Common practice".
    Saw::NoTag, NO_TAG, "no_tag", Proof, Wall, Seen;
        "The trusses where they cross the wall: no tag, no doubled web, no bearing block";
        "They were made to bear at their ends";
        "How to tell load bearing wall with truss roof (collected statements)".
    Saw::JoistsRun { .. }, JOISTS_RUN, "joists_run", Proof, Joists, Seen;
        "The way the joists run";
        "Which walls they cross. They may turn elsewhere, also on the other side of one wall";
        "Question on a split level, answered by a designer".
    Saw::JoistSize { .. }, JOIST_SIZE, "joist_size", Proof, Joists, Seen;
        "Size of the joists, how far apart they are";
        "How far they can reach: where they reach further than any table lets them, something between carries";
        "How to tell if a wall is load bearing (contractor)".
    Saw::RidgeBoard, RIDGE_BOARD, "ridge_board", Proof, Roof, Seen;
        "Rafters against a thin ridge board, their feet tied by joists";
        "The roof goes to the outside walls; nothing comes down under the ridge. The ceiling still counts";
        "Conventional Roof Framing: A Code's-Eye View, Journal of Light Construction".
    Saw::RidgeBeam, RIDGE_BEAM, "ridge_beam", Proof, Roof, Seen;
        "Rafters on a deep ridge beam";
        "Half of the roof comes down where the beam rests: follow both of its ends";
        "Conventional Roof Framing: A Code's-Eye View, Journal of Light Construction".
    Saw::TrussPlates, TRUSS_PLATES, "truss_plates", Proof, Roof, Seen;
        "Trusses with metal plates, every web whole";
        "Made to bear at the outside walls, unless a tag or drawing says that they bear inside too";
        "How to tell load bearing wall with truss roof (collected statements)".
    Saw::TrussGussets, TRUSS_GUSSETS, "truss_gussets", Proof, Roof, Seen;
        "Trusses with plywood gussets, built on the site";
        "Nobody can say where they bear: the walls under them need a look by an engineer";
        "Answers of the trade on a truss roof (S03 in fixtures/situations.json)".
    Saw::WebCut, WEB_CUT, "web_cut", Proof, Roof, Seen;
        "A web of a truss is cut";
        "The truss may lean on what is under it: the walls there need a look by an engineer";
        "Answers of the trade on a truss roof (S03 in fixtures/situations.json)".
    Saw::StudsRunOn, STUDS_RUN_ON, "studs_run_on", Proof, Wall, Memory;
        "Studs run on past the floor above, no plate there";
        "A balloon frame: what stands above hangs on these studs too";
        "Common practice".
    Saw::NailRows { .. }, NAIL_ROWS, "nail_rows", StrongHint, Joists, Memory;
        "Rows of nails in a subfloor, a ceiling or sheathing";
        "Joists lie along the rows. Old boards may lie on battens: a hole settles it";
        "Common practice".
    Saw::HeavyHeader, HEAVY_HEADER, "heavy_header", StrongHint, Wall, Seen;
        "A heavy header over a door or passage in the wall";
        "Somebody took it to carry. Not proof: some builders use one size everywhere";
        "A Load Bearing Wall Can Be Deceptive".
    Saw::Drawing { .. }, DRAWING, "drawing", Hint, Wall, Seen;
        "The original drawing";
        "How it was meant. What was built, and changed since, has to be looked at";
        "How to tell if an interior wall is load bearing (collected statements)".
    Saw::FloorboardsRun { .. }, FLOORBOARDS_RUN, "floorboards_run", Hint, Joists, Memory;
        "The way the floorboards run";
        "Boards nailed to joists cross them. On a subfloor they may run any way";
        "Common practice".
    Saw::NoHeader, NO_HEADER, "no_header", Hint, Wall, Seen;
        "No header over a door in the wall, or a single flat 2x4";
        "Hints at a partition and never more: headers were left out where they belonged";
        "IRC R602.7.4 or older R602.7.2, as quoted".
    Saw::DoubledJoist, DOUBLED_JOIST, "doubled_joist", Hint, Joists, Seen;
        "A doubled joist overhead";
        "Something heavy stands on it, or it holds an opening: find its ends";
        "A Load Bearing Wall Can Be Deceptive".
    Saw::HeavyAbove, HEAVY_ABOVE, "heavy_above", Hint, Wall, Seen;
        "A tub, tank, stove or chimney on the floor above";
        "A weight to be drawn as a heavy thing. A wall under it may have come to carry";
        "How to Identify a Load Bearing Wall (inspection firm)".
    Saw::InLine { .. }, IN_LINE, "in_line", Nothing, Wall, Seen;
        "A beam, post or wall below, in line with it";
        "Of a wall it proves nothing: it may be there for the floor alone. Under the end of a beam it tells where that goes";
        "Question on a split level, answered by a designer".
    Saw::JoistsRunThrough, JOISTS_RUN_THROUGH, "joists_run_through", Nothing, Wall, Seen;
        "Joists run through over the wall in one piece";
        "No lap: but they may need the wall all the same, and bear on it if it is tight";
        "Engineering firm's page on walls, of continuous joists".
    Saw::LooseStuds, LOOSE_STUDS, "loose_studs", Nothing, Wall, Seen;
        "Studs that are loose under the plate";
        "Proves nothing: wood shrinks, and a load may sit on the next stud";
        "Engineering firm's page on walls, of loose studs".
    Saw::DoublePlate, DOUBLE_PLATE, "double_plate", Nothing, Wall, Memory;
        "Two top plates";
        "Proves nothing: many partitions have two as well";
        "Common practice".
    Saw::TieMissing, TIE_MISSING, "tie_missing", Distress, Roof, Seen;
        "A pair of rafters without a tie at its feet";
        "The rafters push the walls out: the ridge may have come to lean on something";
        "Rafter Ties and Shallow-Pitch Roofs, Journal of Light Construction".
    Saw::Sag { .. }, SAG, "sag", Distress, Wall, Seen;
        "A sag in a ceiling or floor, with its size";
        "Something is too weak or was taken away: hold it up first, then ask an engineer";
        "Answers of the trade on sagging floors (S12, S16 in fixtures/situations.json)".
    Saw::Crack, CRACK, "crack", Distress, Wall, Memory;
        "A crack above a door or in a ceiling";
        "A sign of movement: date it, measure it again";
        "Common practice".
    Saw::StickingDoor, STICKING_DOOR, "sticking_door", Distress, Wall, Memory;
        "A door that sticks";
        "A sign of movement: date it, look above and below";
        "Common practice".
    Saw::WallTakenOut, WALL_TAKEN_OUT, "wall_taken_out", Distress, Wall, Seen;
        "A wall was taken out here earlier";
        "What ran over it may span too far now: hold it up first, then ask an engineer";
        "Answers of the trade on a wall taken out (S12 in fixtures/situations.json)".
    Saw::Hole, HOLE, "hole", Record, Wall, Seen;
        "A hole was cut here to look";
        "What was seen through it is an observation of its own";
        "How to tell if a wall is load bearing (advice page)".
    Saw::Age { .. }, AGE, "age", Hint, House, Memory;
        "When the house was built";
        "Before 1950 no trusses with metal plates; ceilings are opened always";
        "Common practice; that ceilings of before 1950 are opened: Tips for taking down a wall".
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_kind_of_the_table_is_the_word_of_the_file() {
        // A file that says `"saw": key` reads back as the kind whose proof has that key.
        for proof_row in PROOFS {
            let text = format!(
                r#"{{"saw":"{}","along":[1,0],"member":"2x6","below":"beam","studs":3,"by":0.5,"says":"bearing","year":1931}}"#,
                proof_row.key
            );
            let saw: Saw = serde_json::from_str(&text).unwrap_or_else(|error| panic!("{}: {error}", proof_row.key));
            assert_eq!(proof(&saw).key, proof_row.key);
        }
    }

    #[test]
    fn what_popular_clues_prove_is_nothing() {
        for key in ["in_line", "joists_run_through", "loose_studs", "double_plate"] {
            let row = PROOFS.iter().find(|it| it.key == key).expect("a kind");
            assert_eq!(row.weight, Weight::Nothing, "{key}");
        }
    }

    #[test]
    fn no_sentence_promises_anything() {
        for row in PROOFS {
            let text = format!("{} {}", row.what, row.proves).to_lowercase();
            assert!(["safe", "approved", "certified"].iter().all(|word| !text.contains(word)), "{text}");
        }
    }
}
