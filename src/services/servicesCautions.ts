/** What the services sheet says before anything else, because water, gas, drains and electricity can hurt people. */
export const SERVICES_CAUTIONS: readonly string[] = [
  'This is a coordination sheet for setting out, not an installation design. Licensed trades decide pipe and cable sizes, protection, backflow prevention, venting and ventilation, under the codes of the place; those come first.',
  'Positions are derived from a drawing. Check every one on site, from the same datum, before anything is cut, cored or cast in.',
  'Connected load is the plain sum of the equipment’s loads without diversity. A licensed electrician decides circuits, protection and cable sizes.',
  'Discharge units are those of household appliances. EN 12056-2:2000, 6.2.3, excludes commercial kitchens from this method; a drainage designer decides.',
  'Gas work only by registered persons. No gas load is summed here.',
];

/** Said where equipment by others is served: nobody here knows which machine comes. */
export const BY_OTHERS_CAUTION =
  'Services of equipment by others: check places, heights, connections and loads with the supplier of the very machine before anything is brought up.';

/** For the sheet of a project without any equipment that needs a service. */
export const NO_SERVICES_NOTE = 'No piece of this fit asks for a service.';
