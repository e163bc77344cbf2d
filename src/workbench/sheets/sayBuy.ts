/** Cloth and ribbon are sold by the metre or the yard: said on screen as on paper. */
export { sayAtCounter as sayBuy } from '../../fabric';
