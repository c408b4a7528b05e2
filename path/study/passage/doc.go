// Package passage works out days at sea: what a person's hearing takes in a day by the places and watches he keeps, the fuel of
// a passage, which cruising speed is the quietest for each mile; and what belongs to it: the floor that no silencer takes
// out, and the beats of engines that run together.
package passage
