//! Roots of any degree, each step `+ - * /` alone: the library's differ in the last bit from one machine to another.

/// The root of this degree by Newton's steps from above; 0 of what is not a positive number. A degree of 0 is read as 1.
pub(crate) fn root(of: f64, degree: u32) -> f64 {
    if of <= 0.0 || !of.is_finite() {
        return 0.0;
    }
    let degree = degree.max(1);
    let mut root = of.max(1.0);
    for _ in 0..2000 {
        let below = power(root, degree - 1);
        let next = (f64::from(degree - 1) * root + of / below) / f64::from(degree);
        // From above they only fall, until rounding stops them.
        if next >= root {
            break;
        }
        root = next;
    }
    root
}

/// A product of so many equal factors; 1 of none.
pub(crate) fn power(of: f64, mut count: u32) -> f64 {
    let (mut product, mut square) = (1.0, of);
    while count > 0 {
        if count % 2 == 1 {
            product *= square;
        }
        square *= square;
        count /= 2;
    }
    product
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_root_of_any_degree_is_one_however_large_or_small() {
        for number in [1e-30, 0.001, 1.0, 27.0, 4.572e6, 1e30] {
            for degree in [1, 2, 3, 8, 9, 10, 20] {
                let root = root(number, degree);
                assert!((power(root, degree) / number - 1.0).abs() < 1e-14 * f64::from(degree), "{degree}: {root}");
            }
        }
        assert!(root(-8.0, 3).abs() < 1e-300 && root(f64::NAN, 3).abs() < 1e-300);
        assert!((root(7.0, 0) - 7.0).abs() < 1e-12 && (power(7.0, 0) - 1.0).abs() < 1e-12);
    }

    /// The degree of a depth factor (12 / 24)^(1 / 7.35) = root of degree 147, twenty times.
    #[test]
    fn a_broken_exponent_is_a_root_and_a_power() {
        let factor = power(root(0.5, 147), 20);
        // By logarithms: exp(-0.69314718056 / 7.35) = exp(-0.0943057389).
        assert!((factor - 0.910_004_495_97).abs() < 1e-10, "{factor}");
    }
}
