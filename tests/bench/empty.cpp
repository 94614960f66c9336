/// A process that does nothing, built and linked as every program of this folder is: what start_up measures against.

int main() { return 0; }
