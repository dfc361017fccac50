/** The htmx attributes used here; the compiler then knows their values, and a test refuses any other hx-* name. */
import 'preact';

declare module 'preact' {
  interface HTMLAttributes<RefType extends EventTarget = EventTarget> {
    'hx-get'?: string;
    'hx-post'?: '/messages/count';
    'hx-target'?: '#passage' | '#making' | '#fetch' | '#message-count';
    'hx-swap'?: 'outerHTML' | 'outerHTML show:top';
    'hx-push-url'?: 'true';
    'hx-trigger'?: 'load delay:1s' | 'input delay:500ms';
  }
}
