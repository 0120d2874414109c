//! The page in a real browser, one behaviour a file.
//!
//! Expected numbers are worked out by hand from tooth counts ([`by_hand`]), or by the core crate
//! at run time ([`by_core`]); never read from the page.

mod accessibility;
mod bad_files;
mod bad_links;
mod builder;
mod building;
mod by_core;
mod by_hand;
mod capacity;
mod combinations;
mod compare;
mod course;
mod downloads;
mod drag;
mod editing;
mod effort;
mod element;
mod embedding;
mod engines;
mod exercises;
mod faults;
mod file_text;
mod hosts;
mod in_class;
mod in_the_drawing;
mod install;
mod keyboard;
mod language;
mod link;
mod mesh_orders;
mod motion;
mod names;
mod narrow;
mod nearer;
mod network;
mod offline;
mod opening;
mod operating;
mod other_origin;
mod own_files;
mod pictures;
mod print;
mod progress;
mod room;
mod scenarios;
mod surroundings;
mod take_away;
mod touch;
mod traps;
mod walk;
mod whole_engine;
mod whole_links;
mod words;
mod worksheet;
