/**
 * Mechanical units. Every factor follows from these definitions, exact since the years given (NIST SP 811,
 * Appendix B): inch 25.4 mm (1959), pound 0.453 592 37 kg (1959), standard gravity 9.806 65 m/s² (1901),
 * US gallon, gallon US 231 cubic inches, imperial gallon 4.546 09 l (1985), conventional mercury 13 595.1 kg/m³.
 */
import { decimal, over, type Rational, rational, times } from './rational.ts';
import { offsetUnit, roundUnit, unit } from './unit.ts';

const INCH = decimal('0.0254');
const FOOT = decimal('0.3048');
const POUND = decimal('0.45359237');
const GRAVITY = decimal('9.80665');
const POUND_FORCE = times(POUND, GRAVITY);
const SQUARE_INCH = times(INCH, INCH);
const CUBIC_INCH = times(SQUARE_INCH, INCH);
const US_GALLON = times(rational(231n), CUBIC_INCH);
const IMPERIAL_GALLON = decimal('0.00454609');
const MERCURY_MM = times(decimal('13.5951'), GRAVITY);
/** π cut after 50 places. */
const PI = decimal('3.14159265358979323846264338327950288419716939937510');

function part(whole: Rational, count: bigint): Rational {
  return over(whole, rational(count));
}

const LBF_FT = times(POUND_FORCE, FOOT);
/** "Foot-pound" is said of both a torque and an energy; "pound-foot" and lbf·ft only ever of a torque. */
const FOOT_POUND = 'ft-lb, ft-lbs, ft-lbf, foot-pound, foot-lb, foot-lbs, foot-pound-force';
const POUND_FOOT = 'lb-ft, lbs-ft, lbf-ft, pound-foot, pound-feet, pounds-feet, pound-force-foot, lb-foot';

export const MECHANICAL = {
  torque: [
    unit('N·m', 'N.m', '1', 'Nm, newton-metre, newton-meter, nm'),
    unit('mN·m', 'mN.m', '0.001', 'mNm'),
    unit('lbf·ft', '[lbf_av].[ft_i]', LBF_FT, `${POUND_FOOT}, ${FOOT_POUND}`),
    unit(
      'lbf·in',
      '[lbf_av].[in_i]',
      times(POUND_FORCE, INCH),
      'in-lb, in-lbs, lb-in, lbs-in, in-lbf, lbf-in, inch-pound, inch-pounds, pound-inch, pound-inches, inch-lb, inch-lbs, lb-inch',
    ),
    unit('kgf·m', 'kgf.m', GRAVITY, 'kgf-m, kg-m, m-kg, m-kgf, kgm, mkg, kilogram-metre, kilogram-meter'),
    unit('kgf·cm', 'kgf.cm', times(GRAVITY, decimal('0.01')), 'kgf-cm, kg-cm, cm-kg, cm-kgf'),
  ],
  energy: [
    unit('J', 'J', '1', 'joule'),
    unit('kJ', 'kJ', '1000', 'kilojoule'),
    unit('W·h', 'W.h', '3600', 'Wh, watt-hour'),
    unit('kW·h', 'kW.h', '3600000', 'kWh, kilowatt-hour'),
    unit('ft·lbf', '[ft_i].[lbf_av]', LBF_FT, FOOT_POUND),
  ],
  length: [
    unit('m', 'm', '1', 'metre, meter'),
    unit('cm', 'cm', '0.01', 'centimetre, centimeter'),
    unit('mm', 'mm', '0.001', 'millimetre, millimeter'),
    unit('µm', 'um', '0.000001', 'um, micron, micrometre'),
    unit('km', 'km', '1000', 'kilometre, kilometer'),
    unit('in', '[in_i]', INCH, '", inch, inches, ins'),
    unit('ft', '[ft_i]', FOOT, "', foot, feet"),
    unit('thou', '[mil_i]', part(INCH, 1000n), 'mil, thous, thousandth, thousandths'),
    unit('yd', '[yd_i]', '0.9144', 'yard, yds'),
    unit('mi', '[mi_i]', '1609.344', 'mile'),
  ],
  area: [
    unit('m²', 'm2', '1', 'm2, sq m, square metre, square meter'),
    unit('cm²', 'cm2', '0.0001', 'cm2, sq cm, square centimetre'),
    unit('mm²', 'mm2', '0.000001', 'mm2, sq mm, square millimetre, square millimeter'),
    unit('in²', '[sin_i]', SQUARE_INCH, 'in2, sq in, square inch, square inches'),
    unit('ft²', '[sft_i]', times(FOOT, FOOT), 'ft2, sq ft, square foot, square feet'),
  ],
  volume: [
    unit('ml', 'mL', '0.000001', 'mL, millilitre, milliliter'),
    unit('cl', 'cL', '0.00001', 'cL'),
    unit('l', 'L', '0.001', 'L, litre, liter, ltr'),
    unit('cm³', 'cm3', '0.000001', 'cc, ccm, cm3, cu cm, cubic centimetre'),
    unit('m³', 'm3', '1', 'm3, cubic metre, cubic meter'),
    unit('in³', '[cin_i]', CUBIC_INCH, 'in3, cu in, cubic inch, cubic inches, cid'),
    unit(
      'US fl oz',
      '[foz_us]',
      part(US_GALLON, 128n),
      'fl oz, floz, fluid ounce, fl oz US, US fluid ounce',
      'oz, ounce',
    ),
    unit('US pt', '[pt_us]', part(US_GALLON, 8n), 'pt, pint, pt US, US pint, pint US, pts'),
    unit('US qt', '[qt_us]', part(US_GALLON, 4n), 'qt, quart, qt US, US quart, quart US, qts'),
    unit('US gal', '[gal_us]', US_GALLON, 'gal, gallon, gal US, US gallon, gals'),
    unit(
      'imp fl oz',
      '[foz_br]',
      part(IMPERIAL_GALLON, 160n),
      'imperial fl oz, UK fl oz, fl oz imp, fl oz UK, imperial fluid ounce',
    ),
    unit(
      'imp pt',
      '[pt_br]',
      part(IMPERIAL_GALLON, 8n),
      'imperial pt, UK pt, pt imp, pt UK, imperial pint, UK pint, pint UK, pint imp',
    ),
    unit(
      'imp qt',
      '[qt_br]',
      part(IMPERIAL_GALLON, 4n),
      'imperial qt, UK qt, qt imp, qt UK, imperial quart, UK quart, quart UK, quart imp',
    ),
    unit(
      'imp gal',
      '[gal_br]',
      IMPERIAL_GALLON,
      'imperial gal, UK gal, gal imp, gal UK, imperial gallon, UK gallon, gallon UK, gallon imp',
    ),
  ],
  mass: [
    unit('kg', 'kg', '1', 'kilogram, kilo, kgs'),
    unit('g', 'g', '0.001', 'gram, gramme'),
    unit('mg', 'mg', '0.000001', 'milligram'),
    unit('lb', '[lb_av]', POUND, 'lbs, pound, lbm'),
    unit('oz', '[oz_av]', part(POUND, 16n), 'ounce, ozs'),
  ],
  force: [
    unit('N', 'N', '1', 'newton'),
    unit('kN', 'kN', '1000', 'kilonewton'),
    unit('lbf', '[lbf_av]', POUND_FORCE, 'pound-force, pounds-force', 'lb, lbs, pound'),
    unit('kgf', 'kgf', GRAVITY, 'kilogram-force, kp, kilopond', 'kg, kgs, kilogram'),
    unit('gf', 'gf', times(GRAVITY, decimal('0.001')), 'gram-force', 'g, gram'),
  ],
  pressure: [
    unit('Pa', 'Pa', '1', 'pascal'),
    unit('hPa', 'hPa', '100', 'hectopascal'),
    unit('kPa', 'kPa', '1000', 'kilopascal'),
    unit('MPa', 'MPa', '1000000', 'megapascal, N/mm²'),
    unit('bar', 'bar', '100000', 'bars'),
    unit('mbar', 'mbar', '100', 'millibar'),
    unit(
      'psi',
      '[psi]',
      over(POUND_FORCE, SQUARE_INCH),
      'psig, lbf/in², lb/in², lbs/in², lb/sq in, lbf/sq in, lbs/sq in',
      'pounds',
    ),
    unit('kgf/cm²', 'kgf/cm2', times(GRAVITY, decimal('10000')), 'kg/cm², kgf/cm2, kp/cm²'),
    unit('atm', 'atm', '101325', 'atmosphere'),
    unit('mmHg', 'mm[Hg]', MERCURY_MM, 'mm Hg'),
    unit('cmHg', 'cm[Hg]', times(MERCURY_MM, rational(10n)), 'cm Hg'),
    unit('inHg', "[in_i'Hg]", times(MERCURY_MM, decimal('25.4')), 'in Hg, inches Hg, "Hg'),
  ],
  temperature: [
    unit('K', 'K', '1', 'kelvin'),
    offsetUnit(
      '°C',
      'Cel',
      rational(1n),
      decimal('273.15'),
      'degC, deg C, degree C, degrees C, celsius, degrees celsius, °celsius',
      'C',
    ),
    offsetUnit(
      '°F',
      '[degF]',
      rational(5n, 9n),
      times(decimal('459.67'), rational(5n, 9n)),
      'degF, deg F, degree F, degrees F, fahrenheit, degrees fahrenheit',
      'F',
    ),
  ],
  'temperature-difference': [
    unit('K', 'K', '1', '', 'kelvin, °C, degC, deg C, degrees C, degree C, celsius, C'),
    unit('°F', '[degF]', rational(5n, 9n), '', 'degF, deg F, degrees F, degree F, fahrenheit, F'),
  ],
  time: [
    unit('s', 's', '1', 'sec, secs, second'),
    unit('ms', 'ms', '0.001', 'millisecond, msec'),
    unit('µs', 'us', '0.000001', 'us, microsecond'),
    unit('min', 'min', '60', 'mins, minute'),
    unit('h', 'h', '3600', 'hr, hrs, hour'),
    unit('days', 'd', '86400', 'd, day'),
  ],
  angle: [
    unit('rad', 'rad', '1', 'radian, rads'),
    roundUnit('°', 'deg', over(PI, rational(180n)), 'deg, degs, degree'),
  ],
  rotation: [
    unit(
      'rpm',
      '/min',
      rational(1n, 60n),
      'r/min, rev/min, revs/min, 1/min, /min, min⁻¹, revolutions per minute',
      'revs',
    ),
    unit('r/s', '/s', '1', 'rps, rev/s, 1/s, s⁻¹, revolutions per second'),
  ],
  density: [
    unit('kg/m³', 'kg/m3', '1', 'kg/m3'),
    unit('g/cm³', 'g/cm3', '1000', 'g/cm3, g/cc, g/ml, kg/l'),
    unit('lb/US gal', '[lb_av]/[gal_us]', over(POUND, US_GALLON), 'lb/gal, lbs/gal'),
  ],
  speed: [
    unit('m/s', 'm/s', '1', 'metres per second, meters per second'),
    unit('km/h', 'km/h', rational(5n, 18n), 'kph, kmh, km/hr, kmph'),
    unit('mph', '[mi_i]/h', over(decimal('1609.344'), rational(3600n)), 'mi/h, miles per hour'),
  ],
} as const;

/** Mechanical horsepower: 550 foot-pounds a second. Metric horsepower: 75 kilogram-force metres a second. */
export const HORSEPOWER = times(rational(550n), LBF_FT);
export const METRIC_HORSEPOWER = times(rational(75n), GRAVITY);
