//! Lists put in order, equals left as they come.
//!
//! The sort of the standard library is made anew for each kind of thing and each way of comparing: 4.6 kB of WebAssembly
//! each time, ninety-nine times, a sixth of the page's code. Here long lists are sorted as a list of their places, by one sort
//! for all; short ones, which nearly all are, by insertion.

use std::cmp::Ordering;

/// Lists up to this long are sorted by insertion.
const SHORT: usize = 20;

/// The sorts of a list.
pub trait InOrder<T> {
    /// By an order of two things.
    fn order_by(&mut self, order: impl FnMut(&T, &T) -> Ordering);

    /// By what a thing is known by.
    fn order_by_key<K: Ord>(&mut self, mut key: impl FnMut(&T) -> K) {
        self.order_by(|a, b| key(a).cmp(&key(b)));
    }

    /// By themselves.
    fn order(&mut self)
    where
        T: Ord,
    {
        self.order_by(Ord::cmp);
    }
}

impl<T> InOrder<T> for [T] {
    fn order_by(&mut self, mut order: impl FnMut(&T, &T) -> Ordering) {
        if self.len() <= SHORT {
            for sorted in 1..self.len() {
                for at in (1..=sorted).rev() {
                    match self.get_mut(at - 1..=at) {
                        Some([one, other]) if order(one, other) == Ordering::Greater => std::mem::swap(one, other),
                        _ => break,
                    }
                }
            }
            return;
        }
        let list = &*self;
        let mut places = sorted(list.len(), &mut |one, other| match (list.get(one), list.get(other)) {
            (Some(one), Some(other)) => order(one, other),
            _ => Ordering::Equal,
        });
        arrange(&mut places, &mut |one, other| self.swap(one, other));
    }
}

/// The places of a list in the order of what is at them.
fn sorted(length: usize, order: &mut dyn FnMut(usize, usize) -> Ordering) -> Vec<usize> {
    let mut places: Vec<usize> = (0..length).collect();
    places.sort_by(|one, other| order(*one, *other));
    places
}

/// Moves things to their places, ring by ring: `places` holds for each place which thing belongs there.
fn arrange(places: &mut [usize], swap: &mut dyn FnMut(usize, usize)) {
    for start in 0..places.len() {
        let mut here = start;
        while let Some(from) = places.get_mut(here).map(|it| std::mem::replace(it, here)) {
            if from == start || from == here {
                break;
            }
            swap(here, from);
            here = from;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::InOrder;

    #[test]
    fn is_the_order_of_the_standard_library() {
        for length in 0..200_u64 {
            // Few keys, so that many are equal and a change of their order shows.
            let keys = (0..length).map(|at| (at * at * 7 + at * length) % 13);
            let mut ours: Vec<(u64, usize)> = keys.zip(0..).collect();
            let mut theirs = ours.clone();
            ours.order_by_key(|it| it.0);
            theirs.sort_by_key(|it| it.0);
            assert_eq!(ours, theirs, "{length} things");
        }
    }
}
