//! A link as a QR code: to carry a house from one screen to another device, or on paper.

use qrcodegen::{QrCode, QrCodeEcc};

/// A code: a square of modules.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Code {
    /// How many modules a side has, without the four free ones that belong around it.
    pub side: i32,
    /// The dark ones as the `d` of an SVG path, one unit a module.
    pub path: String,
}

/// The code of an address; none if it is too long for the largest one.
#[must_use]
pub fn code(address: &str) -> Option<Code> {
    // Medium correction survives a fold or a stain; a long address gets low rather than none.
    let made =
        [QrCodeEcc::Medium, QrCodeEcc::Low].into_iter().find_map(|ecc| QrCode::encode_text(address, ecc).ok())?;
    let side = made.size();
    let mut path = String::new();
    for y in 0..side {
        let mut x = 0;
        while x < side {
            let run = (x..side).take_while(|x| made.get_module(*x, y)).count();
            let run = i32::try_from(run).unwrap_or_default();
            if run > 0 {
                path.push_str(&format!("M{x} {y}h{run}v1h-{run}z"));
            }
            x += run + 1;
        }
    }
    Some(Code { side, path })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A symbol of version 1 is 21 modules wide; its finders are dark for 7 modules along the top (ISO/IEC 18004, 5.3; MEMORY).
    #[test]
    fn a_short_address_makes_a_code_of_21_to_29_modules_with_its_finders() {
        let short = code("https://a.example/#house=A").expect("fits");
        assert_eq!(short.side, 25);
        assert!(short.path.starts_with("M0 0h7v1h-7z") && short.path.contains("M18 0h7v1h-7z"));
        assert!(short.path.contains("M0 24h7v1h-7z"));
    }

    #[test]
    fn an_address_too_long_for_any_code_gets_none() {
        assert!(code(&"a".repeat(2_953)).is_some());
        assert_eq!(code(&"a".repeat(2_954)), None);
    }
}
