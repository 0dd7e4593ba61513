package geometry

// Drawn returns a solid as it is drawn, without what it is counted for and what is kept of
// it: what asks for its walls asks that.
func Drawn(s Solid) Solid {
	for {
		switch of := s.(type) {
		case Swelled:
			s = of.Solid
		case *Kept:
			s = of.Solid
		default:
			return s
		}
	}
}
