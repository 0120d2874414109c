//! Fault finding: by hand, by dense elimination, by edited files, and by trying everything.

mod by_hand;
mod forwards;
mod model;
mod search;
