/**
 * Every part number that a study may pin, by family, so that a study can be checked where the catalogue itself is not at
 * hand. A contract test holds these lists to the catalogue's.
 */
export type PartFamily =
  | 'resistor'
  | 'capacitor'
  | 'reference-diode'
  | 'transistor'
  | 'op-amp'
  | 'shunt-reference'
  | 'heatsink'

const listed = (numbers: string): readonly string[] => numbers.trim().split(/\s*\|\s*/u)

export const PART_NUMBERS: Readonly<Record<PartFamily, readonly string[]>> = {
  resistor: listed(`
    RC0402 1 % | RC0402 5 % | RC0603 1 % | RC0603 5 % | RC0805 1 % | RC0805 5 % | RC1206 1 % | RC1206 5 % |
    RC1210 1 % | RC1210 5 % | RC1218 1 % | RC1218 5 % | RC2010 1 % | RC2010 5 % | RC2512 1 % | RC2512 5 % | CF18 |
    CF14 | CF12 | CF1 | CF2 | RR01 5 % | RR01 1 % | RR02 5 % | RR02 1 % | RR03 5 % | RR03 1 % | MF 0.25 W | MF 0.5 W |
    MF 0.6 W (0207) | MO 1 W | MO 2 W | MO 3 W | MO 5 W | WW 3 W | WW cement 5 W | WW cement 10 W |
    WW cement 5 W vertical
  `),
  capacitor: listed(`
    C0G 0603 100 pF 50 V | C0G 0603 1.00 nF 50 V | C0G 0805 10.0 nF 50 V | C0G radial 5 mm 100 pF 50 V |
    C0G radial 5 mm 1.00 nF 50 V | C0G radial 5 mm 10.0 nF 50 V | X7R 0603 100 nF 50 V | X7R 0603 1.00 µF 25 V |
    X7R 0805 100 nF 50 V | X7R 0805 1.00 µF 50 V | X7R 0805 10.0 µF 25 V | X7R 1206 1.00 µF 50 V |
    X7R 1206 10.0 µF 25 V | X7R 1210 10.0 µF 50 V | X7R 1210 22.0 µF 25 V | Nichicon XK 10.0 nF 250 V |
    Nichicon XK 100 nF 250 V | Nichicon XK 1.00 µF 250 V | Nichicon XK 10.0 nF 400 V | Nichicon XK 100 nF 400 V |
    Nichicon XK 1.00 µF 400 V | Nichicon XK 10.0 nF 630 V | Nichicon XK 100 nF 630 V | Nichicon XK 1.00 µF 630 V |
    polyester 5 mm 10.0 nF 50 V | polyester 5 mm 100 nF 50 V | polyester 5 mm 1.00 µF 50 V |
    polyester 5 mm 10.0 nF 63 V | polyester 5 mm 100 nF 63 V | polyester 5 mm 1.00 µF 63 V |
    polyester 5 mm 10.0 nF 100 V | polyester 5 mm 100 nF 100 V | polyester 5 mm 1.00 µF 100 V |
    Nichicon URZ 10.0 µF 6.3 V | Nichicon URZ 22.0 µF 6.3 V | Nichicon URZ 47.0 µF 6.3 V | Nichicon URZ 100 µF 6.3 V |
    Nichicon URZ 220 µF 6.3 V | Nichicon URZ 470 µF 6.3 V | Nichicon URZ 1.00 mF 6.3 V | Nichicon URZ 2.20 mF 6.3 V |
    Nichicon URZ 4.70 mF 6.3 V | Nichicon URZ 10.0 µF 10 V | Nichicon URZ 22.0 µF 10 V | Nichicon URZ 47.0 µF 10 V |
    Nichicon URZ 100 µF 10 V | Nichicon URZ 220 µF 10 V | Nichicon URZ 470 µF 10 V | Nichicon URZ 1.00 mF 10 V |
    Nichicon URZ 2.20 mF 10 V | Nichicon URZ 4.70 mF 10 V | Nichicon URZ 10.0 µF 16 V | Nichicon URZ 22.0 µF 16 V |
    Nichicon URZ 47.0 µF 16 V | Nichicon URZ 100 µF 16 V | Nichicon URZ 220 µF 16 V | Nichicon URZ 470 µF 16 V |
    Nichicon URZ 1.00 mF 16 V | Nichicon URZ 2.20 mF 16 V | Nichicon URZ 4.70 mF 16 V | Nichicon URZ 10.0 µF 25 V |
    Nichicon URZ 22.0 µF 25 V | Nichicon URZ 47.0 µF 25 V | Nichicon URZ 100 µF 25 V | Nichicon URZ 220 µF 25 V |
    Nichicon URZ 470 µF 25 V | Nichicon URZ 1.00 mF 25 V | Nichicon URZ 2.20 mF 25 V | Nichicon URZ 4.70 mF 25 V |
    Nichicon URZ 10.0 µF 35 V | Nichicon URZ 22.0 µF 35 V | Nichicon URZ 47.0 µF 35 V | Nichicon URZ 100 µF 35 V |
    Nichicon URZ 220 µF 35 V | Nichicon URZ 470 µF 35 V | Nichicon URZ 1.00 mF 35 V | Nichicon URZ 2.20 mF 35 V |
    Nichicon URZ 4.70 mF 35 V | Nichicon URZ 10.0 µF 50 V | Nichicon URZ 22.0 µF 50 V | Nichicon URZ 47.0 µF 50 V |
    Nichicon URZ 100 µF 50 V | Nichicon URZ 220 µF 50 V | Nichicon URZ 470 µF 50 V | Nichicon URZ 1.00 mF 50 V |
    Nichicon URZ 2.20 mF 50 V | Nichicon URZ 4.70 mF 50 V | Nichicon URZ 10.0 µF 63 V | Nichicon URZ 22.0 µF 63 V |
    Nichicon URZ 47.0 µF 63 V | Nichicon URZ 100 µF 63 V | Nichicon URZ 220 µF 63 V | Nichicon URZ 470 µF 63 V |
    Nichicon URZ 1.00 mF 63 V | Nichicon URZ 2.20 mF 63 V | Nichicon URZ 4.70 mF 63 V | Nichicon URZ 10.0 µF 100 V |
    Nichicon URZ 22.0 µF 100 V | Nichicon URZ 47.0 µF 100 V | Nichicon URZ 100 µF 100 V | Nichicon URZ 220 µF 100 V |
    Nichicon URZ 470 µF 100 V | Nichicon URZ 1.00 mF 100 V | Nichicon URZ 2.20 mF 100 V | Nichicon URZ 4.70 mF 100 V |
    Nichicon PW 22.0 µF 6.3 V | Nichicon PW 27.0 µF 6.3 V | Nichicon PW 56.0 µF 6.3 V | Nichicon PW 68.0 µF 6.3 V |
    Nichicon PW 100 µF 6.3 V | Nichicon PW 120 µF 6.3 V | Nichicon PW 220 µF 6.3 V | Nichicon PW 470 µF 6.3 V |
    Nichicon PW 560 µF 6.3 V | Nichicon PW 680 µF 6.3 V | Nichicon PW 1.00 mF 6.3 V | Nichicon PW 1.50 mF 6.3 V |
    Nichicon PW 2.70 mF 6.3 V | Nichicon PW 3.30 mF 6.3 V | Nichicon PW 3.90 mF 6.3 V | Nichicon PW 8.20 mF 6.3 V |
    Nichicon PW 12.0 mF 6.3 V | Nichicon PW 15.0 mF 6.3 V | Nichicon PW 39.0 µF 10 V | Nichicon PW 150 µF 10 V |
    Nichicon PW 180 µF 10 V | Nichicon PW 330 µF 10 V | Nichicon PW 470 µF 10 V | Nichicon PW 1.20 mF 10 V |
    Nichicon PW 2.70 mF 10 V | Nichicon PW 4.70 mF 10 V | Nichicon PW 10.0 mF 10 V | Nichicon PW 15.0 mF 10 V |
    Nichicon PW 10.0 µF 16 V | Nichicon PW 15.0 µF 16 V | Nichicon PW 27.0 µF 16 V | Nichicon PW 39.0 µF 16 V |
    Nichicon PW 47.0 µF 16 V | Nichicon PW 82.0 µF 16 V | Nichicon PW 100 µF 16 V | Nichicon PW 120 µF 16 V |
    Nichicon PW 150 µF 16 V | Nichicon PW 180 µF 16 V | Nichicon PW 220 µF 16 V | Nichicon PW 330 µF 16 V |
    Nichicon PW 820 µF 16 V | Nichicon PW 1.00 mF 16 V | Nichicon PW 1.20 mF 16 V | Nichicon PW 2.20 mF 16 V |
    Nichicon PW 6.80 mF 16 V | Nichicon PW 8.20 mF 16 V | Nichicon PW 10.0 mF 16 V | Nichicon PW 4.70 µF 25 V |
    Nichicon PW 27.0 µF 25 V | Nichicon PW 33.0 µF 25 V | Nichicon PW 47.0 µF 25 V | Nichicon PW 56.0 µF 25 V |
    Nichicon PW 82.0 µF 25 V | Nichicon PW 100 µF 25 V | Nichicon PW 120 µF 25 V | Nichicon PW 150 µF 25 V |
    Nichicon PW 220 µF 25 V | Nichicon PW 560 µF 25 V | Nichicon PW 680 µF 25 V | Nichicon PW 820 µF 25 V |
    Nichicon PW 2.20 mF 25 V | Nichicon PW 2.70 mF 25 V | Nichicon PW 4.70 mF 25 V | Nichicon PW 6.80 mF 25 V |
    Nichicon PW 4.70 µF 35 V | Nichicon PW 6.80 µF 35 V | Nichicon PW 12.0 µF 35 V | Nichicon PW 18.0 µF 35 V |
    Nichicon PW 22.0 µF 35 V | Nichicon PW 33.0 µF 35 V | Nichicon PW 39.0 µF 35 V | Nichicon PW 47.0 µF 35 V |
    Nichicon PW 56.0 µF 35 V | Nichicon PW 82.0 µF 35 V | Nichicon PW 100 µF 35 V | Nichicon PW 150 µF 35 V |
    Nichicon PW 390 µF 35 V | Nichicon PW 470 µF 35 V | Nichicon PW 560 µF 35 V | Nichicon PW 1.00 mF 35 V |
    Nichicon PW 3.30 mF 35 V | Nichicon PW 4.70 mF 35 V | Nichicon PW 470 nF 50 V | Nichicon PW 1.00 µF 50 V |
    Nichicon PW 2.20 µF 50 V | Nichicon PW 3.30 µF 50 V | Nichicon PW 4.70 µF 50 V | Nichicon PW 18.0 µF 50 V |
    Nichicon PW 22.0 µF 50 V | Nichicon PW 27.0 µF 50 V | Nichicon PW 33.0 µF 50 V | Nichicon PW 47.0 µF 50 V |
    Nichicon PW 56.0 µF 50 V | Nichicon PW 82.0 µF 50 V | Nichicon PW 100 µF 50 V | Nichicon PW 150 µF 50 V |
    Nichicon PW 270 µF 50 V | Nichicon PW 390 µF 50 V | Nichicon PW 470 µF 50 V | Nichicon PW 560 µF 50 V |
    Nichicon PW 1.00 mF 50 V | Nichicon PW 1.80 mF 50 V | Nichicon PW 2.20 mF 50 V | Nichicon PW 4.70 µF 63 V |
    Nichicon PW 10.0 µF 63 V | Nichicon PW 12.0 µF 63 V | Nichicon PW 15.0 µF 63 V | Nichicon PW 18.0 µF 63 V |
    Nichicon PW 22.0 µF 63 V | Nichicon PW 33.0 µF 63 V | Nichicon PW 39.0 µF 63 V | Nichicon PW 47.0 µF 63 V |
    Nichicon PW 68.0 µF 63 V | Nichicon PW 120 µF 63 V | Nichicon PW 150 µF 63 V | Nichicon PW 270 µF 63 V |
    Nichicon PW 330 µF 63 V | Nichicon PW 470 µF 63 V | Nichicon PW 680 µF 63 V | Nichicon PW 1.20 mF 63 V |
    Nichicon PW 1.50 mF 63 V | Nichicon PW 2.20 mF 63 V | Nichicon PW 470 nF 100 V | Nichicon PW 1.00 µF 100 V |
    Nichicon PW 2.20 µF 100 V | Nichicon PW 3.30 µF 100 V | Nichicon PW 4.70 µF 100 V | Nichicon PW 6.80 µF 100 V |
    Nichicon PW 10.0 µF 100 V | Nichicon PW 15.0 µF 100 V | Nichicon PW 18.0 µF 100 V | Nichicon PW 22.0 µF 100 V |
    Nichicon PW 68.0 µF 100 V | Nichicon PW 82.0 µF 100 V | Nichicon PW 100 µF 100 V | Nichicon PW 150 µF 100 V |
    Nichicon PW 330 µF 100 V | Nichicon PW 390 µF 100 V | Nichicon PW 470 µF 100 V | Nichicon PW 560 µF 100 V |
    Nichicon PW 680 µF 100 V | Nichicon PW 1.00 mF 100 V | tantalum MnO2 10.0 µF 16 V | tantalum MnO2 22.0 µF 16 V |
    tantalum MnO2 47.0 µF 16 V | tantalum MnO2 10.0 µF 25 V | tantalum MnO2 100 µF 10 V
  `),
  'reference-diode': listed(`
    1N5221B | 1N5222B | 1N5223B | 1N5224B | 1N5225B | 1N5226B | 1N5227B | 1N5228B | 1N5229B | 1N5230B | 1N5231B |
    1N5232B | 1N5233B | 1N5234B | 1N5235B | 1N5236B | 1N5237B | 1N5238B | 1N5239B | 1N5240B | 1N5241B | 1N5242B |
    1N5243B | 1N5244B | 1N5245B | 1N5246B | 1N5247B | 1N5248B | 1N5249B | 1N5250B | 1N5251B | 1N5252B | 1N5253B |
    1N5254B | 1N5255B | 1N5256B | 1N5257B | 1N5258B | 1N5259B | 1N5260B | 1N5261B | 1N5262B | 1N5263B | BZX55C2V4 |
    BZX55C2V7 | BZX55C3V0 | BZX55C3V3 | BZX55C3V6 | BZX55C3V9 | BZX55C4V3 | BZX55C4V7 | BZX55C5V1 | BZX55C5V6 |
    BZX55C6V2 | BZX55C6V8 | BZX55C7V5 | BZX55C8V2 | BZX55C9V1 | BZX55C10 | BZX55C11 | BZX55C12 | BZX55C13 | BZX55C15 |
    BZX55C16 | BZX55C18 | BZX55C20 | BZX55C22 | BZX55C24 | BZX55C27 | BZX55C30 | BZX55C33 | BZX55C36 | BZX55C39 |
    BZX55C43 | BZX55C47 | BZX55C51 | BZX55C56 | BZX55C62 | BZX55C68 | BZX55C75 | BZX79C2V4 | BZX79C2V7 | BZX79C3V0 |
    BZX79C3V3 | BZX79C3V6 | BZX79C3V9 | BZX79C4V3 | BZX79C4V7 | BZX79C5V1 | BZX79C5V6 | BZX79C6V2 | BZX79C6V8 |
    BZX79C7V5 | BZX79C8V2 | BZX79C9V1 | BZX79C10 | BZX79C11 | BZX79C12 | BZX79C13 | BZX79C15 | BZX79C16 | BZX79C18 |
    BZX79C20 | BZX79C22 | BZX79C24 | BZX79C27 | BZX79C30 | BZX79C33 | BZX79C36 | BZX79C39 | BZX79C43 | BZX79C47 |
    BZX79C51 | BZX79C56 | BZX79C62 | BZX79C68 | BZX79C75 | MMSZ5221B | MMSZ5222B | MMSZ5223B | MMSZ5224B | MMSZ5225B |
    MMSZ5226B | MMSZ5227B | MMSZ5228B | MMSZ5229B | MMSZ5230B | MMSZ5231B | MMSZ5232B | MMSZ5233B | MMSZ5234B |
    MMSZ5235B | MMSZ5236B | MMSZ5237B | MMSZ5238B | MMSZ5239B | MMSZ5240B | MMSZ5241B | MMSZ5242B | MMSZ5243B |
    MMSZ5244B | MMSZ5245B | MMSZ5246B | MMSZ5247B | MMSZ5248B | MMSZ5249B | MMSZ5250B | MMSZ5251B | MMSZ5252B |
    MMSZ5253B | MMSZ5254B | MMSZ5255B | MMSZ5256B | MMSZ5257B | MMSZ5258B | MMSZ5259B | MMSZ5260B | MMSZ5261B |
    MMSZ5262B | MMSZ5263B | MMSZ5264B | MMSZ5265B | MMSZ5266B | MMSZ5267B | MMSZ5268B | MMSZ5269B | MMSZ5270B |
    1N4728A | 1N4729A | 1N4730A | 1N4731A | 1N4732A | 1N4733A | 1N4734A | 1N4735A | 1N4736A | 1N4737A | 1N4738A |
    1N4739A | 1N4740A | 1N4741A | 1N4742A | 1N4743A | 1N4744A | 1N4745A | 1N4746A | 1N4747A | 1N4748A | 1N4749A |
    1N4750A | 1N4751A | 1N4752A | 1N4753A | 1N4754A | 1N4755A | 1N4756A | 1N4757A | 1N4758A | 1N4759A | 1N4760A |
    1N4761A | 1N4762A | 1N4763A | 1N4764A | 1N5913B | 1N5914B | 1N5915B | 1N5916B | 1N5917B | 1N5918B | 1N5919B |
    1N5920B | 1N5921B | 1N5922B | 1N5923B | 1N5924B | 1N5925B | 1N5926B | 1N5927B | 1N5928B | 1N5929B | 1N5930B |
    1N5931B | 1N5932B | 1N5933B | 1N5934B | 1N5935B | 1N5936B | 1N5937B | 1N5938B | 1N5939B | 1N5940B | 1N5941B |
    1N5942B | 1N5943B | 1N5944B | 1N5945B | 1N5946B | 1N5947B | 1N5948B | 1N5949B | 1N5333B | 1N5334B | 1N5335B |
    1N5336B | 1N5337B | 1N5338B | 1N5339B | 1N5340B | 1N5341B | 1N5342B | 1N5343B | 1N5344B | 1N5345B | 1N5346B |
    1N5347B | 1N5348B | 1N5349B | 1N5350B | 1N5351B | 1N5352B | 1N5353B | 1N5354B | 1N5355B | 1N5356B | 1N5357B |
    1N5358B | 1N5359B | 1N5360B | 1N5361B | 1N5362B | 1N5363B | 1N5364B | 1N5365B | 1N5366B | 1N5367B | 1N5368B |
    1N5369B | 1N5370B | 1N5371B | 1N5372B | 1N5373B | 1N5374B | 1N5375B | 1N5377B | 1N5378B | 1SMA5913B | 1SMA5914B |
    1SMA5915B | 1SMA5916B | 1SMA5917B | 1SMA5918B | 1SMA5919B | 1SMA5920B | 1SMA5921B | 1SMA5922B | 1SMA5923B |
    1SMA5924B | 1SMA5925B | 1SMA5926B | 1SMA5927B | 1SMA5928B | 1SMA5929B | 1SMA5930B | 1SMA5931B | 1SMA5932B |
    1SMA5933B | 1SMA5934B | 1SMA5935B | 1SMA5936B | 1SMA5937B | 1SMA5938B | 1SMA5939B | 1SMA5940B | 1SMA5941B |
    1SMA5942B | 1SMA5943B | 1SMA5944B | 1SMA5945B | 1SMB5913B | 1SMB5914B | 1SMB5915B | 1SMB5916B | 1SMB5917B |
    1SMB5918B | 1SMB5919B | 1SMB5920B | 1SMB5921B | 1SMB5922B | 1SMB5923B | 1SMB5924B | 1SMB5925B | 1SMB5926B |
    1SMB5927B | 1SMB5928B | 1SMB5929B | 1SMB5930B | 1SMB5931B | 1SMB5932B | 1SMB5933B | 1SMB5934B | 1SMB5935B |
    1SMB5936B | 1SMB5937B | 1SMB5938B | 1SMB5939B | 1SMB5940B | 1SMB5941B | 1SMB5942B | 1SMB5943B | 1SMB5944B |
    1SMB5945B | 1SMB5946B | 1SMB5947B | 1SMB5948B | 1SMB5949B
  `),
  transistor: listed(`
    2N3904 | P2N2222A | BC547B | BC547C | BC337-16 | BC337-25 | BC337-40 | BD139-10 | BD139-16 | TIP31C | TIP41C |
    MJE3055T | 2N3055 | TIP120 | TIP122
  `),
  'op-amp': listed(`
    LM358P | LM358D | LM358BP | LM358BID | LM2904P | LM2904D | LM324N | LM324D | LM324BID | MC33171P | MC33171D |
    MC33172P | MC33172D | TLC271CP | TLC271CD | TLC272CP | TLC272CD | MCP6001T-I/OT | MCP6002-I/P | MCP6002-I/SN |
    OPA277PA | OPA277UA
  `),
  'shunt-reference': listed(`
    TL431CLP | TL431CD | TL431ACLP | TL431ACD | TL431BCLP | TL431BCD | TL431CLP (TI) | TL431CDBZ (TI) |
    TL431ACLP (TI) | TL431ACDBZ (TI) | LM4040A25IDBZ | LM4040A25ILP | LM4040B25IDBZ | LM4040B25ILP | LM4040C25IDBZ |
    LM4040C25ILP | LM4040D25IDBZ | LM4040D25ILP | LM4040A41IDBZ | LM4040A41ILP | LM4040B41IDBZ | LM4040B41ILP |
    LM4040C41IDBZ | LM4040C41ILP | LM4040D41IDBZ | LM4040D41ILP | LM4040A50IDBZ | LM4040A50ILP | LM4040B50IDBZ |
    LM4040B50ILP | LM4040C50IDBZ | LM4040C50ILP | LM4040D50IDBZ | LM4040D50ILP | LM385Z-1.2 | LM385D-1.2 |
    LM385BZ-1.2 | LM385BD-1.2 | LM385Z-2.5 | LM385D-2.5 | LM385BZ-2.5 | LM385BD-2.5 | LM336Z-2.5 | LM336BZ-2.5
  `),
  heatsink: listed(`
    Boyd 5750 | Fischer SK 499 37.5 mm | Fischer SK 499 50 mm | Fischer SK 499 75 mm | Fischer SK 499 100 mm |
    Fischer SK 499 150 mm | Fischer SK 499 200 mm | Wakefield omniKlip 27 x 50 x 50 mm single sided |
    Wakefield omniKlip 30 x 50 x 60 mm double sided | Boyd 531202B02500G | Wakefield 216-40 |
    TO-220 class 24 K/W, small clip-on finger/U, 19 mm | TO-220 class 21 K/W, U-channel 22x10x19 mm |
    TO-220 class 18 K/W, clip-on with fins | TO-220 class 16 K/W, U-channel 25 mm |
    TO-220 class 13 K/W, stamped 35x13x25 mm | TO-220 class 11 K/W, extruded 35x13x38 mm (pins) |
    TO-220 class 10 K/W, extruded 42x25x25 mm | TO-220 class 8 K/W, extruded 35x13x63.5 mm |
    TO-220 class 6.5 K/W, extruded 42x25x38 mm | TO-220 class 5 K/W, extruded 42x25x51 mm |
    TO-220 class 4.5 K/W, extruded 42x25x63.5 mm | TO-220 class 3 K/W, extruded 50x33x75 mm |
    TO-220 class 2 K/W, extruded 88x35x75 mm | TO-220 class 1.2 K/W, extruded 100x40x100 mm |
    TO-220 class 0.65 K/W, extruded 200x40x150 mm | TO-126 class 28 K/W, small clip for TO-126 |
    TO-126 class 20 K/W, U-channel for TO-126 | TO-3 class 12 K/W, stamped TO-3 cup |
    TO-3 class 8 K/W, TO-3 finger 25 mm | TO-3 class 5 K/W, TO-3 board extrusion |
    TO-3 class 3 K/W, TO-3 on 88x35 extrusion, 50 mm | TO-3 class 1.9 K/W, TO-3 on 88x35 extrusion, 100 mm |
    TO-3 class 1 K/W, large TO-3 extrusion
  `),
}
