use notebook::*; use std::time::Instant;
fn main(){
  let paths: Vec<_> = std::env::args().skip(1).map(Into::into).collect();
  for _ in 0..4 {
  let t=Instant::now();
  let nb = Notebook::open(&paths, &LocalDisk).map_err(|e| format!("{e:?}")).unwrap();
  let t1=t.elapsed();
  let (w,_)=rig::World::new(nb.project());
  let t2=t.elapsed(); drop(w);
  let t2b=t.elapsed();
  let f=check(&nb); let t3=t.elapsed();
  println!("open {t1:?} world {:?} check {:?} findings {}", t2-t1, t3-t2b, f.len());
  }
}
