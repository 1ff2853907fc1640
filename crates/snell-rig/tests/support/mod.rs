//! A text read, put together and worked out as a notebook of its own.

#![allow(dead_code, reason = "each test file uses its own part")]

use snell_finding::Finding;
use snell_rig::content::File;
use snell_rig::faults::Faults;
use snell_rig::project::{BlockRef, Project, Source};
use snell_rig::read;
use snell_rig::rig::Rig;
use snell_rig::{Evaluation, World};
use snell_syntax::BlockKind;
use snell_text::TextId;

/// The project of a text.
pub fn project(text: &str) -> Project {
    let mut project = Project::default();
    project.add(source(text, 0, Vec::new()));
    project
}

/// A text as a file of a project.
pub fn source(text: &str, id: u32, uses: Vec<(snell_rig::FileId, usize)>) -> Source {
    let file = snell_syntax::read(text, TextId(id), &snell_syntax::whole(text));
    let mut source = Source::new("notes", text.into(), File::new(text, file));
    source.uses = uses;
    source
}

/// The rigs of a project's own files.
pub fn rigs<'p>(project: &'p Project) -> Vec<BlockRef<'p>> {
    let own = project.files().filter(|file| !project.ships(*file));
    let blocks = own.flat_map(|file| project.blocks(file));
    let is_rig = |block: &BlockRef<'p>| block.head().is_none_or(|head| head.kind == BlockKind::Rig);
    blocks.filter(is_rig).collect()
}

/// The last rig of a text, worked out.
pub fn with_last<T>(text: &str, ask: impl FnOnce(&Evaluation<'_, '_>) -> T) -> T {
    let project = project(text);
    let world = World::new(&project);
    let block = *rigs(&project).last().expect("the text has a rig");
    let rig = read(&world, block, &Faults::default());
    ask(&Evaluation::new(&world, &rig))
}

/// The last rig of a text.
pub fn last_rig<T>(text: &str, ask: impl FnOnce(&Rig<'_>) -> T) -> T {
    with_last(text, |evaluation| ask(evaluation.rig))
}

/// All that is found of a project but by reading its lines and by rules.
pub fn findings(project: &Project) -> Vec<Finding> {
    let world = World::new(project);
    let mut findings = Vec::new();
    for block in project.own_blocks() {
        findings.extend(world.named_twice(block));
        findings.extend(world.replaces(block));
        findings.extend_from_slice(world.findings(block.id));
    }
    for block in rigs(project) {
        let faults = Faults::default();
        let rig = read(&world, block, &faults);
        let evaluation = Evaluation::new(&world, &rig);
        evaluation.run();
        findings.extend(faults.into_inner());
        findings.extend(evaluation.into_findings());
    }
    findings
}

/// What is found, each as `line: code: message`.
pub fn told(text: &str) -> Vec<String> {
    let line = |at: u32| text[..at as usize].matches('\n').count() + 1;
    let tell = |finding: Finding| {
        let at = line(finding.place().span.start);
        format!("{at}: {}: {}", finding.code, finding.message)
    };
    findings(&project(text)).into_iter().map(tell).collect()
}
