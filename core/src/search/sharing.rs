//! A search gone on with by some threads at once, which share its memory and what each of them finds.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use super::Search;
use super::walk::Walk;

/// Boxes that a thread goes through before it looks whether another has nothing left.
const AT_ONCE: usize = 32;

impl Search {
    /// So many parts of this search, of which the first has all that is left to do; [`Search::run_at_once`] divides it.
    pub fn parts(mut self, count: usize) -> Vec<Self> {
        if count > 1 {
            self.walk.front.hands_on();
        }
        let others = (1..count).map(|_| {
            let mut walk = Walk::new(Vec::new());
            walk.front = self.walk.front.clone();
            Self {
                ground: Arc::clone(&self.ground),
                walk,
                all: self.all,
                task: self.task,
                shard: self.shard,
                told: Vec::new(),
            }
        });
        let others: Vec<Self> = others.collect();
        std::iter::once(self).chain(others).collect()
    }

    /// Goes on with all parts of a search at once, in a thread each, until one of them has gone through so many boxes or
    /// has none left; then all are told what the others found, and those with nothing left get half of what another
    /// has. True once nothing is left, or once there are more finds than are kept. What is found does not depend on
    /// how many parts there are.
    ///
    /// # Panics
    /// Where there are no threads, as in a browser.
    pub fn run_at_once(parts: &mut [Self], boxes: usize) -> bool {
        if let [one] = parts {
            return one.run(boxes);
        }
        let ends = AtomicBool::new(false);
        std::thread::scope(|scope| {
            for part in &mut *parts {
                let ends = &ends;
                scope.spawn(move || {
                    let mut done = 0;
                    while done < boxes && !ends.load(Ordering::Relaxed) {
                        if part.run(AT_ONCE) {
                            break;
                        }
                        done += AT_ONCE;
                    }
                    ends.store(true, Ordering::Relaxed);
                });
            }
        });
        share_finds(parts);
        share_boxes(parts);
        parts
            .iter()
            .all(|part| part.walk.boxes.is_empty() && part.told.is_empty())
            || parts.iter().any(|part| part.is_full())
    }

    /// One search again of all parts of one; nothing of none.
    pub fn joined(parts: Vec<Self>) -> Option<Self> {
        let mut parts = parts.into_iter();
        let mut one = parts.next()?;
        for part in parts {
            one.walk.boxes.extend(part.walk.boxes);
            one.walk.counts.add(&part.walk.counts);
            one.told.extend(part.told);
            for find in part.walk.front.finds() {
                one.walk.front.put(Arc::clone(find), true);
            }
        }
        Some(one)
    }
}

fn share_finds(parts: &mut [Search]) {
    for from in 0..parts.len() {
        let fresh = parts[from].walk.front.fresh();
        for (to, part) in parts.iter_mut().enumerate() {
            if to != from {
                for find in &fresh {
                    part.walk.front.put(Arc::clone(find), false);
                }
            }
        }
    }
}

/// Gives those with nothing left every other box of whoever has the most candidates left.
fn share_boxes(parts: &mut [Search]) {
    for idle in 0..parts.len() {
        if !parts[idle].walk.boxes.is_empty() {
            continue;
        }
        let left = |part: &Search| {
            let boxes = part.walk.boxes.iter();
            let candidates = boxes.map(|each| part.ground.candidates(&each.branches));
            candidates.sum::<u128>()
        };
        let rich = (0..parts.len())
            .filter(|&at| parts[at].walk.boxes.len() > 1)
            .max_by_key(|&at| left(&parts[at]));
        let Some(rich) = rich else { return };
        let boxes = std::mem::take(&mut parts[rich].walk.boxes);
        for (at, each) in boxes.into_iter().enumerate() {
            let to = if at % 2 == 0 { idle } else { rich };
            parts[to].walk.boxes.push(each);
        }
    }
}
