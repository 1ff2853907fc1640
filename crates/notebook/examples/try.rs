use notebook::*;
fn main(){
  let paths: Vec<_> = std::env::args().skip(1).map(Into::into).collect();
  let nb = Notebook::open(&paths, &LocalDisk).map_err(|e| format!("{e:?}")).unwrap();
  for f in check(&nb) {
    let p=f.place(); 
    if let Some(d)=nb.document(p.text) { let lc=d.index().line_column(&d.text,p.span.start); println!("{}:{}:{}: {}: {}: {}  [{}]", d.path.display(), lc.line, lc.column, f.level.word(), f.code, f.message, p.span.of(&d.text)); }
    else { println!("?? {f:?}"); }
    for l in &f.labels[1..] { if let Some(d)=nb.document(l.place.text){ println!("     {} <- {}", l.place.span.of(&d.text), l.text);} }
    if let Some(h)=&f.help {println!("     help: {h}");}
    for x in &f.fixes {println!("     fix: {} sure={}", x.title,x.sure);}
  }
  for r in view::show(&nb, view::Units::Author, |_,_|true) {
    println!("== {} {:?} {:?}", r.name, r.title, r.settings);
    for row in &r.rows { println!("  {:<12} {:<10} {:<12} {:<10} {:<8} {:<30} {}", row.part, row.length.as_ref().map_or("", |w|&w.text), row.to_point.as_ref().map_or("",|w|&w.text), row.diameter.as_ref().map_or("",|w|&w.text), row.rated.as_ref().map_or("",|w|&w.text), row.what, row.knot); }
    for (k,v) in &r.measures { println!("  {k}: {}", v.text); }
    for s in r.droppers.iter().chain(&r.gaps).chain(&r.flies) { println!("  {}: {:?}", s.name, s.measures.iter().map(|(k,v)| format!("{k} {}", v.text)).collect::<Vec<_>>()); }
    for a in &r.assumed { println!("  assumed {}: {} ({})", a.what,a.value,a.why); }
    for a in &r.unknown { println!("  unknown {} {:?}: {:?}", a.measure,a.part,a.needs); }
  }
}
