//! The wood of a part that stands, as values of a form: stamp, dry or wet, incised.

use joistwise_core::plan::{Stock, Wood};
use joistwise_core::strength::lumber::Grade;

use super::text::{meant, word};
use super::{FormError, Values};

/// Its values; the grade only where a stamp was read.
pub(super) fn wood_values(wood: &Wood) -> Values {
    let species = wood.stock.map(|it| word(&it.species)).unwrap_or_default();
    let own = [("species", species), ("moisture", word(&wood.moisture)), ("incising", word(&wood.incising))];
    own.into_iter().chain(wood.stock.map(|it| ("stamp", word(&it.grade)))).collect()
}

/// The wood with one value changed.
pub(in crate::app) fn wooden(wood: Wood, key: &str, text: &str) -> Result<Wood, FormError> {
    Ok(match key {
        "species" if text.is_empty() => Wood { stock: None, ..wood },
        "species" => {
            let grade = wood.stock.map_or(Grade::Two, |it| it.grade);
            Wood { stock: Some(Stock { species: meant(text)?, grade }), ..wood }
        }
        "stamp" => {
            let Some(stock) = wood.stock else { return Err(FormError::GradeAlone) };
            Wood { stock: Some(Stock { grade: meant(text)?, ..stock }), ..wood }
        }
        "moisture" => Wood { moisture: meant(text)?, ..wood },
        "incising" => Wood { incising: meant(text)?, ..wood },
        _ => return Err(FormError::NoSuchValue(key.to_owned())),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stamp_is_read_by_species_then_grade_and_taken_back_whole() {
        let none = Wood::default();
        assert!(matches!(wooden(none, "stamp", "one"), Err(FormError::GradeAlone)));
        let some = wooden(none, "species", "hem_fir").unwrap();
        assert_eq!(wood_values(&some).get("stamp").map(String::as_str), Some("two"));
        let better = wooden(some, "stamp", "one").unwrap();
        assert_eq!(better.stock.map(|it| it.grade), Some(Grade::One));
        assert_eq!(wooden(better, "species", "").unwrap(), none);
        assert!(wooden(none, "species", "oak").is_err() && wooden(none, "moisture", "damp").is_err());
        assert!(wooden(none, "name", "x").is_err());
    }
}
