//! The module's door to JavaScript. What comes out is JSON, of the types that
//! the package describes.

use crate::page::Page;
use wasm_bindgen::prelude::*;

/// The files of a page, and what is asked of them.
#[wasm_bindgen]
#[derive(Default)]
pub struct Rigs(Page);

type Told = Result<String, JsError>;

fn told(answer: Result<String, String>) -> Told {
    answer.map_err(|why| JsError::new(&why))
}

#[wasm_bindgen]
impl Rigs {
    #[wasm_bindgen(constructor)]
    pub fn new() -> Self {
        Self::default()
    }

    pub fn put(&mut self, file: &str, text: &str) {
        self.0.put(file, text);
    }

    pub fn remove(&mut self, file: &str) {
        self.0.remove(file);
    }

    pub fn look(&mut self, file: &str, rig: Option<String>, from: u32, to: u32) -> Told {
        told(self.0.look(file, rig.as_deref(), (from, to)))
    }

    pub fn judge(&mut self, file: &str, rig: Option<String>, from: u32, to: u32) -> Told {
        told(self.0.judge(file, rig.as_deref(), (from, to)))
    }

    pub fn hover(&mut self, file: &str, at: u32) -> Told {
        told(self.0.hover(file, at))
    }

    pub fn complete(&mut self, file: &str, at: u32) -> Told {
        told(self.0.complete(file, at))
    }

    pub fn words(&mut self, file: &str) -> Told {
        told(self.0.words(file))
    }

    pub fn slide(&mut self, file: &str, from: u32, to: u32, value: f64) -> Told {
        told(self.0.slide(file, from, to, value))
    }

    pub fn ways(&mut self, file: &str, from: u32, to: u32) -> Told {
        told(self.0.ways(file, from, to))
    }
}

#[cfg(feature = "bank")]
#[wasm_bindgen]
impl Rigs {
    pub fn check(&mut self, file: &str) -> Told {
        told(self.0.check(file))
    }

    pub fn show(&mut self, file: &str) -> Told {
        told(self.0.show(file))
    }

    pub fn draw(&mut self, file: &str, rig: &str, in_water: bool) -> Told {
        told(self.0.draw(file, rig, in_water))
    }

    pub fn drift(&mut self, file: &str, rig: &str) -> Told {
        told(self.0.drift(file, rig))
    }

    pub fn card(&mut self, file: &str, rig: &str) -> Told {
        told(self.0.card(file, rig))
    }

    pub fn fit(&mut self, file: &str, rig: &str, depth: &str, speed: &str) -> Told {
        told(self.0.fit(file, rig, depth, speed))
    }
}

#[cfg(feature = "editor")]
#[wasm_bindgen]
impl Rigs {
    pub fn findings(&mut self, file: &str) -> Told {
        told(self.0.findings(file))
    }

    pub fn missing(&mut self, file: &str) -> Told {
        told(self.0.missing(file))
    }

    pub fn look_around(&mut self, file: &str, at: u32) -> Told {
        told(self.0.look_around(file, at))
    }

    pub fn judge_around(&mut self, file: &str, at: u32) -> Told {
        told(self.0.judge_around(file, at))
    }

    pub fn tidy(&mut self, file: &str) -> Told {
        told(self.0.tidy(file))
    }

    pub fn mend(&mut self, file: &str) -> Told {
        told(self.0.mend(file))
    }

    pub fn hints(&mut self, file: &str, from: u32, to: u32) -> Told {
        told(self.0.hints(file, from, to))
    }

    pub fn totals(&mut self, file: &str) -> Told {
        told(self.0.totals(file))
    }

    pub fn outline(&mut self, file: &str) -> Told {
        told(self.0.outline(file))
    }

    pub fn definition(&mut self, file: &str, at: u32) -> Told {
        told(self.0.definition(file, at))
    }

    pub fn places(&mut self, file: &str, at: u32) -> Told {
        told(self.0.places(file, at))
    }

    pub fn changeable(&mut self, file: &str, at: u32) -> Told {
        told(self.0.changeable(file, at))
    }

    pub fn rename(&mut self, file: &str, at: u32, new: &str) -> Told {
        told(self.0.rename(file, at, new))
    }
}
