/* The program that does nothing: what starting and ending a process costs here. */
int main(void)
{
    return 0;
}
