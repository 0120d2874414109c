//! Shifts as swaps of elements: by hand, by set differences, the best rows of ranges by naive recursion, and all of it by NetworkX.

mod by_hand;
mod model;
mod networkx;
mod rows;
mod trains;
