//! A notebook: one snapshot of some texts with the files in them, `use` lines
//! followed. It never changes, and any thread may ask it.

use crate::answers::Answers;
use crate::document::Document;
use crate::engine::Analysis;
use snell_finding::Finding;
use snell_rig::Project;
use snell_text::TextId;
use std::path::PathBuf;

/// Texts and the files in them, ready to be evaluated.
#[derive(Debug)]
pub struct Notebook {
    pub(crate) documents: Vec<Document>,
    pub(crate) project: Project,
    pub(crate) findings: Vec<Finding>,
    /// Files that were to be used and could not be read.
    pub(crate) missed: Vec<PathBuf>,
    pub(crate) analysis: Analysis,
}

impl Notebook {
    pub(crate) fn answers(&self) -> &Answers {
        self.analysis.answers()
    }

    /// The texts, in the order in which they were read.
    pub fn documents(&self) -> &[Document] {
        &self.documents
    }

    /// A text that was read.
    pub fn document(&self, id: TextId) -> Option<&Document> {
        self.documents.get(id.0 as usize)
    }

    /// The files to evaluate.
    pub fn project(&self) -> &Project {
        &self.project
    }

    /// The paths of files that were to be used and could not be read.
    pub fn missed(&self) -> &[PathBuf] {
        &self.missed
    }

    /// What was found in reading.
    pub fn reading(&self) -> &[Finding] {
        &self.findings
    }
}
