/** Electrical units, with power, frequency and ratio. Decimal multiples of SI units (BIPM SI brochure): exact. */
import { HORSEPOWER, METRIC_HORSEPOWER } from './mechanical.ts';
import { unit } from './unit.ts';

export const ELECTRICAL = {
  voltage: [
    unit('V', 'V', '1', 'volt, VDC, VAC, Vdc, Vac, V DC, V AC, volts DC, volts AC'),
    unit('mV', 'mV', '0.001', 'millivolt'),
    unit('µV', 'uV', '0.000001', 'uV, microvolt'),
    unit('kV', 'kV', '1000', 'kilovolt'),
  ],
  current: [
    unit('A', 'A', '1', 'amp, ampere, amps DC, ADC'),
    unit('mA', 'mA', '0.001', 'milliamp, milliampere'),
    unit('µA', 'uA', '0.000001', 'uA, microamp, microampere'),
  ],
  resistance: [
    unit('Ω', 'Ohm', '1', 'ohm, ohms', 'R'),
    unit('mΩ', 'mOhm', '0.001', 'mohm, mohms, mOhm, mOhms, milliohm'),
    unit('µΩ', 'uOhm', '0.000001', 'uΩ, uohm, uOhm, microohm'),
    unit('kΩ', 'kOhm', '1000', 'kohm, kohms, kOhm, kiloohm, kilohm', 'k, K'),
    unit('MΩ', 'MOhm', '1000000', 'Mohm, Mohms, MOhm, MOhms, megohm, megaohm, Meg', 'M'),
  ],
  conductance: [
    unit('S', 'S', '1', 'siemens, mho'),
    unit('mS', 'mS', '0.001', 'millisiemens'),
    unit('µS', 'uS', '0.000001', 'uS, microsiemens'),
  ],
  inductance: [
    unit('H', 'H', '1', 'henry, henries'),
    unit('mH', 'mH', '0.001', 'millihenry, millihenries'),
    unit('µH', 'uH', '0.000001', 'uH, microhenry, microhenries'),
  ],
  capacitance: [
    unit('F', 'F', '1', 'farad'),
    unit('mF', 'mF', '0.001', 'millifarad'),
    unit('µF', 'uF', '0.000001', 'uF, mfd, microfarad'),
    unit('nF', 'nF', '0.000000001', 'nanofarad'),
    unit('pF', 'pF', '0.000000000001', 'picofarad'),
  ],
  charge: [
    unit('C', 'C', '1', 'coulomb'),
    unit('Ah', 'A.h', '3600', 'A-h, A-hr, amp-hour, ampere-hour, amp-hr'),
    unit('mAh', 'mA.h', '3.6', 'mA-h, milliamp-hour'),
  ],
  power: [
    unit('W', 'W', '1', 'watt'),
    unit('mW', 'mW', '0.001', 'milliwatt'),
    unit('kW', 'kW', '1000', 'kilowatt'),
    unit('hp', '[HP]', HORSEPOWER, 'horsepower, bhp'),
    unit('PS', '75.kgf.m/s', METRIC_HORSEPOWER, 'metric hp, metric horsepower, cv'),
  ],
  frequency: [
    unit('Hz', 'Hz', '1', 'hertz, c/s'),
    unit('kHz', 'kHz', '1000', 'kilohertz'),
    unit('MHz', 'MHz', '1000000', 'megahertz'),
  ],
  ratio: [unit('%', '%', '0.01', 'percent, per cent, pct'), unit('1', '1', '1')],
} as const;
