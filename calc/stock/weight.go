package stock

import "math"

// SheetMM3 is the volume of a rectangle of sheet, mm3.
func SheetMM3(lengthMM, widthMM, thicknessMM float64) float64 {
	return lengthMM * widthMM * thicknessMM
}

// DiscMM3 is the volume of a disc, mm3. A length of round wire is a disc too.
func DiscMM3(diameterMM, thicknessMM float64) float64 {
	return math.Pi / 4 * diameterMM * diameterMM * thicknessMM
}

// HalfRoundMM3 is the volume of half-round wire, mm3: half an ellipse of the
// given width and height. A true half round has height = width/2.
func HalfRoundMM3(widthMM, heightMM, lengthMM float64) float64 {
	return math.Pi / 4 * widthMM * heightMM * lengthMM
}

// TubeMM3 is the volume of the metal of round tube, mm3: mid-wall
// circumference times wall times length, which is exact.
func TubeMM3(outerMM, wallMM, lengthMM float64) float64 {
	return math.Pi * (outerMM - wallMM) * wallMM * lengthMM
}

// MassG is the mass of a volume, g.
func MassG(volumeMM3, densityGPerCM3 float64) float64 {
	return volumeMM3 * densityGPerCM3 / 1000
}
