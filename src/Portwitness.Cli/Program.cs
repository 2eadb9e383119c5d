using Portwitness.Cli;
using Portwitness.Cli.Shell;

return await CommandLine.RunAsync(args, Terminal.FromConsole());
