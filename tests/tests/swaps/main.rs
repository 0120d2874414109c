//! Shifts as swaps of elements: by hand, by set differences, and the best rows of ranges by naive recursion.

mod by_hand;
mod model;
mod rows;
mod trains;
