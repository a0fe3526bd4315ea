/** Style sheets are Vite's to load; to the compiler they are nothing. */
declare module '*.css';
