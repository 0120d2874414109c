//! Sorting short lists with little code.
//!
//! The standard library's stable sort is several kilobytes for every type it is used on, which in
//! an engine that is downloaded counts for more than its speed on lists of a dozen entries.

use std::cmp::Ordering;

/// Sorts a short list, equals staying in order. Insertion: for n entries up to n²/2 comparisons.
pub fn sort_short_by<T>(items: &mut [T], mut order: impl FnMut(&T, &T) -> Ordering) {
    for end in 1..items.len() {
        let mut place = end;
        while place > 0 && order(&items[place - 1], &items[place]) == Ordering::Greater {
            items.swap(place - 1, place);
            place -= 1;
        }
    }
}

/// As [`sort_short_by`], in the order of a key.
pub fn sort_short_by_key<T, K: Ord>(items: &mut [T], mut key: impl FnMut(&T) -> K) {
    sort_short_by(items, |a, b| key(a).cmp(&key(b)));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sorts_as_the_standard_library_does() {
        // Every list of four keys from 0 to 3.
        for code in 0..4_u32.pow(4) {
            let list: Vec<(u32, usize)> =
                (0..4).map(|i| (code >> (2 * i) & 3, i as usize)).collect();
            let (mut ours, mut theirs) = (list.clone(), list);
            sort_short_by_key(&mut ours, |&(key, _)| key);
            theirs.sort_by_key(|&(key, _)| key);
            assert_eq!(ours, theirs);
        }
    }
}
