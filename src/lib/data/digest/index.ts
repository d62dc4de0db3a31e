export { Sha256, sha256OfBlob, sha256OfText } from './sha256.ts';
