//! A queue by cost.

/// States by cost. No step costs as much as there are buckets, so each bucket holds one cost at a
/// time.
pub struct Buckets {
    /// The entry of each bucket that was put in last, or [`NONE`].
    last: Vec<u32>,
    /// States, each with the entry that was in its bucket before it.
    entries: Vec<(u32, u32)>,
    cost: u32,
    waiting: usize,
}

const NONE: u32 = u32::MAX;

impl Buckets {
    /// An empty queue, for steps that cost up to `dearest` and about so many states.
    pub fn new(dearest: u32, states: usize) -> Self {
        Self {
            // A power of two, so that a cost finds its bucket by its last bits.
            last: vec![NONE; (dearest as usize + 1).next_power_of_two()],
            entries: Vec::with_capacity(states),
            cost: 0,
            waiting: 0,
        }
    }

    pub fn push(&mut self, cost: u32, state: usize) {
        let bucket = self.bucket(cost);
        self.entries.push((state as u32, self.last[bucket]));
        self.last[bucket] = self.entries.len() as u32 - 1;
        self.waiting += 1;
    }

    /// One of the states of least cost, if that is at most `most`.
    pub fn pop(&mut self, most: u32) -> Option<(u32, usize)> {
        if self.waiting == 0 {
            return None;
        }
        while self.cost <= most {
            let bucket = self.bucket(self.cost);
            let entry = self.last[bucket];
            if entry != NONE {
                let (state, before) = self.entries[entry as usize];
                self.last[bucket] = before;
                self.waiting -= 1;
                return Some((self.cost, state as usize));
            }
            self.cost += 1;
        }
        None
    }

    const fn bucket(&self, cost: u32) -> usize {
        cost as usize & (self.last.len() - 1)
    }
}
