using Portwitness.Cli;
using Portwitness.Cli.Shell;
using Portwitness.Server.Http;

return await CommandLine.RunAsync(args, Terminal.FromConsole(), HttpExtension.Create());
