#include "textflag.h"

// ROW puts the address of the row of the key at off(R12), from byte DX on, into R.
#define ROW(off, R) \
	MOVQ off(R12), R; \
	LEAQ (R)(R*2), R; \
	MOVQ (R11)(R*8), R; \
	ADDQ DX, R

// FOUR adds four rows to the sum of four draws: (fa a + fb b) + (fc c + fe e).
#define FOUR(off, Y) \
	VMULPD off(R8), Y8, Y12; \
	VMULPD off(R9), Y9, Y13; \
	VMULPD off(R10), Y10, Y14; \
	VMULPD off(R15), Y11, Y15; \
	VADDPD Y13, Y12, Y12; \
	VADDPD Y15, Y14, Y14; \
	VADDPD Y14, Y12, Y12; \
	VADDPD Y12, Y, Y

// ONE adds a row to the sum of four draws.
#define ONE(off, Y) \
	VMULPD off(R8), Y8, Y12; \
	VADDPD Y12, Y, Y

#define ZERO(Y) VXORPD Y, Y, Y

#define FACTORS \
	VBROADCASTSD (R13), Y8; \
	VBROADCASTSD 8(R13), Y9; \
	VBROADCASTSD 16(R13), Y10; \
	VBROADCASTSD 24(R13), Y11

// func addAVX2(to *float64, n int, rows *[]float64, keys *int, factors *float64, fours, ones int, fresh bool)
// Sums of 32 draws, then of 4, stay in registers while all rows pass.
TEXT ·addAVX2(SB), NOSPLIT, $0-57
	MOVQ to+0(FP), DI
	MOVQ n+8(FP), SI
	MOVQ rows+16(FP), R11
	MOVQ keys+24(FP), AX
	MOVQ factors+32(FP), BX
	XORQ DX, DX

wide:
	CMPQ SI, $32
	JLT narrow
	CMPB fresh+56(FP), $0
	JEQ load
	ZERO(Y0)
	ZERO(Y1)
	ZERO(Y2)
	ZERO(Y3)
	ZERO(Y4)
	ZERO(Y5)
	ZERO(Y6)
	ZERO(Y7)
	JMP rows

load:
	VMOVUPD (DI), Y0
	VMOVUPD 32(DI), Y1
	VMOVUPD 64(DI), Y2
	VMOVUPD 96(DI), Y3
	VMOVUPD 128(DI), Y4
	VMOVUPD 160(DI), Y5
	VMOVUPD 192(DI), Y6
	VMOVUPD 224(DI), Y7

rows:
	MOVQ AX, R12
	MOVQ BX, R13
	MOVQ fours+40(FP), CX

wideFour:
	SUBQ $4, CX
	JLT wideRest
	ROW(0, R8)
	ROW(8, R9)
	ROW(16, R10)
	ROW(24, R15)
	FACTORS
	FOUR(0, Y0)
	FOUR(32, Y1)
	FOUR(64, Y2)
	FOUR(96, Y3)
	FOUR(128, Y4)
	FOUR(160, Y5)
	FOUR(192, Y6)
	FOUR(224, Y7)
	ADDQ $32, R12
	ADDQ $32, R13
	JMP wideFour

wideRest:
	MOVQ ones+48(FP), CX
	TESTQ CX, CX
	JZ wideDone

wideOne:
	ROW(0, R8)
	VBROADCASTSD (R13), Y8
	ONE(0, Y0)
	ONE(32, Y1)
	ONE(64, Y2)
	ONE(96, Y3)
	ONE(128, Y4)
	ONE(160, Y5)
	ONE(192, Y6)
	ONE(224, Y7)
	ADDQ $8, R12
	ADDQ $8, R13
	DECQ CX
	JNZ wideOne

wideDone:
	VMOVUPD Y0, (DI)
	VMOVUPD Y1, 32(DI)
	VMOVUPD Y2, 64(DI)
	VMOVUPD Y3, 96(DI)
	VMOVUPD Y4, 128(DI)
	VMOVUPD Y5, 160(DI)
	VMOVUPD Y6, 192(DI)
	VMOVUPD Y7, 224(DI)
	ADDQ $256, DI
	ADDQ $256, DX
	SUBQ $32, SI
	JMP wide

narrow:
	TESTQ SI, SI
	JZ done
	ZERO(Y0)
	CMPB fresh+56(FP), $0
	JNE narrowRows
	VMOVUPD (DI), Y0

narrowRows:
	MOVQ AX, R12
	MOVQ BX, R13
	MOVQ fours+40(FP), CX

narrowFour:
	SUBQ $4, CX
	JLT narrowRest
	ROW(0, R8)
	ROW(8, R9)
	ROW(16, R10)
	ROW(24, R15)
	FACTORS
	FOUR(0, Y0)
	ADDQ $32, R12
	ADDQ $32, R13
	JMP narrowFour

narrowRest:
	MOVQ ones+48(FP), CX
	TESTQ CX, CX
	JZ narrowDone

narrowOne:
	ROW(0, R8)
	VBROADCASTSD (R13), Y8
	ONE(0, Y0)
	ADDQ $8, R12
	ADDQ $8, R13
	DECQ CX
	JNZ narrowOne

narrowDone:
	VMOVUPD Y0, (DI)
	ADDQ $32, DI
	ADDQ $32, DX
	SUBQ $4, SI
	JMP narrow

done:
	VZEROUPPER
	RET

// func productAVX2(to, a, b *float64, n int)
TEXT ·productAVX2(SB), NOSPLIT, $0-32
	MOVQ to+0(FP), DI
	MOVQ a+8(FP), R8
	MOVQ b+16(FP), R9
	MOVQ n+24(FP), SI
	XORQ DX, DX

product:
	VMOVUPD (R8)(DX*8), Y0
	VMULPD (R9)(DX*8), Y0, Y0
	VADDPD (DI)(DX*8), Y0, Y0
	VMOVUPD Y0, (DI)(DX*8)
	ADDQ $4, DX
	CMPQ DX, SI
	JLT product
	VZEROUPPER
	RET

// func blendAVX2(to *float64, fa float64, a *float64, fb float64, b *float64, n int)
TEXT ·blendAVX2(SB), NOSPLIT, $0-48
	MOVQ to+0(FP), DI
	VBROADCASTSD fa+8(FP), Y2
	MOVQ a+16(FP), R8
	VBROADCASTSD fb+24(FP), Y3
	MOVQ b+32(FP), R9
	MOVQ n+40(FP), SI
	XORQ DX, DX

blend:
	VMULPD (R8)(DX*8), Y2, Y0
	VMULPD (R9)(DX*8), Y3, Y1
	VADDPD Y1, Y0, Y0
	VMOVUPD Y0, (DI)(DX*8)
	ADDQ $4, DX
	CMPQ DX, SI
	JLT blend
	VZEROUPPER
	RET

// func expAVX2(xs *float64, n int, table, numbers *float64, third float64) int
TEXT ·expAVX2(SB), NOSPLIT, $0-48
	MOVQ xs+0(FP), DI
	MOVQ n+8(FP), SI
	MOVQ table+16(FP), BX
	MOVQ numbers+24(FP), AX
	VBROADCASTSD (AX), Y15   // the range
	VBROADCASTSD 8(AX), Y14  // steps per neper
	VBROADCASTSD 16(AX), Y13 // brings a whole number to the end
	VBROADCASTSD 24(AX), Y12 // nepers per step
	VBROADCASTSD 32(AX), Y11 // 1/2
	VBROADCASTSD 40(AX), Y10 // 1
	VBROADCASTSD third+32(FP), Y7
	VPCMPEQD Y9, Y9, Y9
	VPSRLQ $1, Y9, Y8        // all bits but the sign
	VPSRLQ $55, Y9, Y9       // 511
	XORQ DX, DX

four:
	VMOVUPD (DI)(DX*8), Y0
	VANDPD Y8, Y0, Y1
	VCMPPD $1, Y15, Y1, Y1   // |x| < range
	VMOVMSKPD Y1, CX
	CMPL CX, $15
	JNE far
	VMULPD Y14, Y0, Y1
	VADDPD Y13, Y1, Y1       // t
	VPAND Y9, Y1, Y3
	VMOVQ X3, R8
	VPEXTRQ $1, X3, R9
	VEXTRACTI128 $1, Y3, X3
	VMOVQ X3, R10
	VPEXTRQ $1, X3, R11
	VMOVSD (BX)(R8*8), X4
	VMOVHPD (BX)(R9*8), X4, X4
	VMOVSD (BX)(R10*8), X5
	VMOVHPD (BX)(R11*8), X5, X5
	VINSERTF128 $1, X5, Y4, Y4
	VSUBPD Y13, Y1, Y2
	VMULPD Y12, Y2, Y2
	VSUBPD Y2, Y0, Y0        // the rest
	VPSRLQ $9, Y1, Y1
	VPSLLQ $52, Y1, Y1
	VPADDQ Y1, Y4, Y4
	VMULPD Y7, Y0, Y2
	VADDPD Y11, Y2, Y2
	VMULPD Y0, Y2, Y2
	VADDPD Y10, Y2, Y2
	VMULPD Y0, Y2, Y2
	VADDPD Y10, Y2, Y2
	VMULPD Y4, Y2, Y2
	VMOVUPD Y2, (DI)(DX*8)
	ADDQ $4, DX
	CMPQ DX, SI
	JLT four

far:
	MOVQ DX, ret+40(FP)
	VZEROUPPER
	RET
