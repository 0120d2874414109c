//! Values that others published, compared exactly or to the digits printed.
//!
//! Every table names its source and how the values came to us. Left out until the core can say
//! it: clutches that slip.

mod capacity;
mod compound;
mod lever;
mod losses;
mod mesh_orders;
mod simple_set;
mod stepped;
mod teeth;
mod textbook;
