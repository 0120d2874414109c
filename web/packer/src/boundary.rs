//! What JavaScript sees.

use wasm_bindgen::prelude::*;

use crate::archive::Archive;

/// An archive that files are put into.
#[wasm_bindgen]
#[derive(Default)]
pub struct Packer(Archive);

#[wasm_bindgen]
impl Packer {
    /// One with nothing in it.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Self {
        Self::default()
    }

    /// Puts a file in, under a path with `/`; throws where it is too large.
    pub fn add(&mut self, name: &str, content: &[u8]) -> Result<(), JsError> {
        Ok(self.0.add(name, content)?)
    }

    /// The archive; throws where it is too large.
    pub fn finish(self) -> Result<Vec<u8>, JsError> {
        Ok(self.0.finish()?)
    }
}
