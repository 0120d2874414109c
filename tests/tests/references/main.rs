//! Values that others published, compared exactly or to the digits printed.
//!
//! Every table names its source and how the values came to us. Left out until the core can say
//! it: sets with stepped planets and two-sun trains on them, clutch torques and
//! slip.

mod compound;
mod lever;
mod losses;
mod simple_set;
mod teeth;
mod textbook;
