// Package choice searches what may stand in the slots of a layout: which elements, in which order and size. Choices are
// left out by what is known at little cost (parts that do not go together, price, back pressure at rated, length, outside
// size, what is refused for heat or water), scored by the loss of the line at one place over a band of speeds and gas
// temperatures, and the best are predicted in full with all doubts. Levels are dB(A), pressures Pa, lengths m. The same
// input and seed give the same answer on any number of cores.
package choice
