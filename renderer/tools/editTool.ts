import { carryingState } from './edit/carryingState.ts';
import { draggingState } from './edit/draggingState.ts';
import { type EditState, editIdle } from './edit/editState.ts';
import { idleState } from './edit/idleState.ts';
import { nudgingState } from './edit/nudgingState.ts';
import { pressedState } from './edit/pressedState.ts';
import type { Tool } from './tool.ts';

/**
 * Selecting runs, and moving, typing, inserting and removing the parts of the selected one: points, straights, openings
 * and blocked zones, wanted stations.
 */
export const editTool: Tool<EditState> = {
  name: 'edit',
  start: () => editIdle(),

  next(state, event, context) {
    switch (state.at) {
      case 'idle':
        return idleState.next(state, event, context);
      case 'pressed':
        return pressedState.next(state, event, context);
      case 'dragging':
        return draggingState.next(state, event, context);
      case 'nudging':
        return nudgingState.next(state, event, context);
      case 'carrying':
        return carryingState.next(state, event, context);
    }
  },

  view(state, context) {
    switch (state.at) {
      case 'idle':
        return idleState.view(state, context);
      case 'pressed':
        return pressedState.view(state, context);
      case 'dragging':
        return draggingState.view(state, context);
      case 'nudging':
        return nudgingState.view(state, context);
      case 'carrying':
        return carryingState.view(state, context);
    }
  },
};
