package gas

// The five species of lean combustion products, in the order of every array of this package.
const (
	nitrogen = iota
	oxygen
	carbonDioxide
	water
	argon
	speciesCount
)

// universal is the molar gas constant, J/(kmol K) (SI, 2019).
const universal = 8314.462618

// species holds what is known of one pure gas.
type species struct {
	name      string
	mass      float64    // kg/kmol
	low, high [6]float64 // NASA-7 coefficients a1..a6 for 200-1000 K and 1000-3500 K
	diameter  float64    // Lennard-Jones collision diameter, 1e-10 m
	well      float64    // Lennard-Jones well depth over Boltzmann's constant, K
	dipole    float64    // debye
}

// pure are the NASA-7 polynomials and Lennard-Jones data of the GRI-Mech 3.0 thermodynamic and
// transport files (Smith et al., 1999; coefficients of Burcat and McBride).
//
//	cp/R = a1 + a2 T + a3 T^2 + a4 T^3 + a5 T^4
//	h/RT = a1 + a2 T/2 + a3 T^2/3 + a4 T^3/4 + a5 T^4/5 + a6/T
var pure = [speciesCount]species{
	{"N2", 28.0134,
		[6]float64{3.298677, 1.4082404e-3, -3.963222e-6, 5.641515e-9, -2.444854e-12, -1020.8999},
		[6]float64{2.92664, 1.4879768e-3, -5.68476e-7, 1.0097038e-10, -6.753351e-15, -922.7977},
		3.621, 97.53, 0},
	{"O2", 31.9988,
		[6]float64{3.78245636, -2.99673416e-3, 9.84730201e-6, -9.68129509e-9, 3.24372837e-12, -1063.94356},
		[6]float64{3.28253784, 1.48308754e-3, -7.57966669e-7, 2.09470555e-10, -2.16717794e-14, -1088.45772},
		3.458, 107.4, 0},
	{"CO2", 44.0095,
		[6]float64{2.35677352, 8.98459677e-3, -7.12356269e-6, 2.45919022e-9, -1.43699548e-13, -48371.9697},
		[6]float64{3.85746029, 4.41437026e-3, -2.21481404e-6, 5.23490188e-10, -4.72084164e-14, -48759.166},
		3.763, 244.0, 0},
	{"H2O", 18.01528,
		[6]float64{4.19864056, -2.0364341e-3, 6.52040211e-6, -5.48797062e-9, 1.77197817e-12, -30293.7267},
		[6]float64{3.03399249, 2.17691804e-3, -1.64072518e-7, -9.7041987e-11, 1.68200992e-14, -30004.2971},
		2.605, 572.4, 1.844},
	{"Ar", 39.948,
		[6]float64{2.5, 0, 0, 0, 0, -745.375},
		[6]float64{2.5, 0, 0, 0, 0, -745.375},
		3.33, 136.5, 0},
}

// coefficients picks the range of a temperature in K; the two ranges meet at 1000 K.
func (s *species) coefficients(temperatureK float64) *[6]float64 {
	if temperatureK > 1000 {
		return &s.high
	}
	return &s.low
}

// heat is the molar heat capacity at constant pressure over the gas constant.
func (s *species) heat(t float64) float64 {
	a := s.coefficients(t)
	return a[0] + t*(a[1]+t*(a[2]+t*(a[3]+t*a[4])))
}

// enthalpy is the molar enthalpy with the heat of formation, J/kmol.
func (s *species) enthalpy(t float64) float64 {
	a := s.coefficients(t)
	return universal * (a[5] + t*(a[0]+t*(a[1]/2+t*(a[2]/3+t*(a[3]/4+t*a[4]/5)))))
}
