export { default as regular } from '@expo-google-fonts/noto-sans/400Regular/NotoSans_400Regular.ttf';
export { default as bold } from '@expo-google-fonts/noto-sans/700Bold/NotoSans_700Bold.ttf';
