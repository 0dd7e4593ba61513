// An invented moulded tank: a rounded block that straddles a frame tube, with a
// sump on the left and a slanted shoulder. Millimetres.
$fn = 40;

module rounded(l, w, h, r)
  hull()
    for (x = [r, l - r], y = [r, w - r], z = [r, h - r])
      translate([x, y, z]) sphere(r);

difference() {
  union() {
    rounded(520, 340, 230, 38);
    translate([120, 190, -46]) rounded(240, 140, 120, 30);
  }
  // the frame tube below, front to rear
  translate([-10, 120, -18]) rotate([0, 90, 0]) scale([1.15, 1, 1]) cylinder(r = 62, h = 560);
  // the shoulder in front
  translate([430, -10, 175]) rotate([0, 28, 0]) cube([220, 380, 160]);
}
