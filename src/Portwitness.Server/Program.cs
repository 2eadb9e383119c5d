using Portwitness.Cli;
using Portwitness.Server.Http;

return await CommandLine.RunAsync(args, Terminal.FromConsole(), HttpDoor.Create());
