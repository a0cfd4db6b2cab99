//! Which of many boxes are near a place, without a look at each: boxes packed into larger ones, and these again.
//!
//! It may name boxes that turn out to be none of a caller's, and never leaves one out; who asks measures for himself.

/// How many boxes one larger box holds.
const PACK: usize = 8;

/// An upright box, on the plan or in a member's own view, in feet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Extent {
    lo: (f64, f64),
    hi: (f64, f64),
}

impl Extent {
    /// The least box around some places.
    pub(super) fn around(places: impl IntoIterator<Item = (f64, f64)>) -> Self {
        let none = Self { lo: (f64::INFINITY, f64::INFINITY), hi: (f64::NEG_INFINITY, f64::NEG_INFINITY) };
        places.into_iter().fold(none, |all, at| all.with(&Self { lo: at, hi: at }))
    }

    fn with(&self, other: &Self) -> Self {
        Self {
            lo: (self.lo.0.min(other.lo.0), self.lo.1.min(other.lo.1)),
            hi: (self.hi.0.max(other.hi.0), self.hi.1.max(other.hi.1)),
        }
    }

    /// The same with a margin all around.
    pub(super) fn grown(&self, by: f64) -> Self {
        self.stretched((by, by))
    }

    /// The same with a margin for each of its two ways.
    pub(super) fn stretched(&self, by: (f64, f64)) -> Self {
        Self { lo: (self.lo.0 - by.0, self.lo.1 - by.1), hi: (self.hi.0 + by.0, self.hi.1 + by.1) }
    }

    /// Whether they have a place in common, be it on their edges.
    pub(super) fn meets(&self, other: &Self) -> bool {
        self.lo.0 <= other.hi.0 && self.hi.0 >= other.lo.0 && self.lo.1 <= other.hi.1 && self.hi.1 >= other.lo.1
    }

    /// Whether all of another one is inside.
    pub(super) fn holds(&self, other: &Self) -> bool {
        self.lo.0 <= other.lo.0 && self.hi.0 >= other.hi.0 && self.lo.1 <= other.lo.1 && self.hi.1 >= other.hi.1
    }

    /// Its corners.
    pub(super) const fn corners(&self) -> [(f64, f64); 4] {
        let ((x, y), (far_x, far_y)) = (self.lo, self.hi);
        [(x, y), (far_x, y), (far_x, far_y), (x, far_y)]
    }

    fn middle(&self) -> (f64, f64) {
        ((self.lo.0 + self.hi.0) / 2.0, (self.lo.1 + self.hi.1) / 2.0)
    }
}

/// Boxes by where they are; each has the number of its place in the list it came from.
#[derive(Clone, Debug, Default)]
pub(super) struct Near {
    numbers: Vec<usize>,
    /// The boxes in the order of `numbers`, then those that hold a pack of them, and so on to the few largest.
    rows: Vec<Vec<Extent>>,
}

impl Near {
    pub(super) fn of(boxes: impl IntoIterator<Item = Extent>) -> Self {
        let mut all: Vec<(usize, Extent)> = boxes.into_iter().enumerate().collect();
        if all.len() > PACK {
            all.sort_by(|a, b| a.1.middle().0.total_cmp(&b.1.middle().0));
            let column = PACK * ((all.len() / PACK).isqrt() + 1);
            for column in all.chunks_mut(column) {
                column.sort_by(|a, b| a.1.middle().1.total_cmp(&b.1.middle().1));
            }
        }
        let (numbers, mut row): (Vec<usize>, Vec<Extent>) = all.into_iter().unzip();
        let mut rows = Vec::new();
        while row.len() > PACK {
            let next = row.chunks(PACK).map(|pack| pack.iter().skip(1).fold(pack.first().copied(), join)).collect();
            let next: Option<Vec<Extent>> = next;
            rows.push(row);
            row = next.unwrap_or_default();
        }
        rows.push(row);
        Self { numbers, rows }
    }

    /// The box around all of them.
    pub(super) fn extent(&self) -> Option<Extent> {
        let top = self.rows.last()?;
        top.iter().skip(1).fold(top.first().copied(), join)
    }

    /// Calls `found` with the number of each box that meets another one, in no order that means anything.
    pub(super) fn each(&self, at: &Extent, mut found: impl FnMut(usize)) {
        if let Some(top) = self.rows.len().checked_sub(1) {
            self.look(top, 0, at, &mut found);
        }
    }

    /// The numbers of all boxes that meet another one, in order.
    pub(super) fn all(&self, at: &Extent) -> Vec<usize> {
        let mut all = Vec::new();
        self.each(at, |number| all.push(number));
        all.sort_unstable();
        all
    }

    /// Looks at one pack of a row.
    fn look(&self, row: usize, from: usize, at: &Extent, found: &mut impl FnMut(usize)) {
        let Some(boxes) = self.rows.get(row).and_then(|row| row.get(from..)) else { return };
        for (i, _) in (from..from + PACK).zip(boxes).filter(|(_, it)| it.meets(at)) {
            match row.checked_sub(1) {
                Some(lower) => self.look(lower, i * PACK, at, found),
                None => self.numbers.get(i).copied().into_iter().for_each(&mut *found),
            }
        }
    }
}

fn join(all: Option<Extent>, one: &Extent) -> Option<Extent> {
    all.map(|all| all.with(one))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_a_thousand_walls_those_near_a_place_are_the_ones_that_a_look_at_each_finds() {
        // Walls of 1 to 60 ft, strewn by a congruence over 300 by 200 ft.
        let mut dice = 7_u32;
        let mut roll = |most: u32| {
            dice = dice.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            f64::from((dice >> 8) % most)
        };
        for count in [0, 1, 7, 8, 9, 64, 65, 1000] {
            let walls: Vec<Extent> = (0..count)
                .map(|_| {
                    let (x, y, long) = (roll(300), roll(200), 1.0 + roll(60));
                    let far = if roll(2) > 0.5 { (x + long, y) } else { (x, y + long) };
                    Extent::around([(x, y), far]).grown(0.5)
                })
                .collect();
            let near = Near::of(walls.iter().copied());
            for _ in 0..200 {
                let at = (roll(300), roll(200));
                let look = Extent::around([at, (at.0 + roll(30), at.1)]);
                let each = walls.iter().enumerate().filter(|(_, wall)| wall.meets(&look)).map(|it| it.0);
                assert_eq!(near.all(&look), each.collect::<Vec<_>>());
            }
        }
    }
}
