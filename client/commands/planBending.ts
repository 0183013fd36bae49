/** planish.planBending: how the part is bent on the shop's brake, step by step, in the same panel as its picture. */
import type { LanguageClient } from 'vscode-languageclient/node';
import type { PicturePanel } from '../picturePanel.js';
import { targetToShow } from './showPicture.js';

export const planBending =
  (client: LanguageClient, pictures: PicturePanel) =>
  async (argument?: unknown): Promise<void> => {
    // From the picture itself, with no text in front, it is about what the picture shows.
    const chosen = (await targetToShow(client, argument)) ?? pictures.state().target;
    if (chosen !== undefined) pictures.show(chosen, 'bending');
  };
